import "server-only";
import { fuelOf } from "@/lib/domain/claims/fuel";
import type { ClaimContext } from "@/lib/domain/diagnosis/experience";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import type { IntakeAnswers } from "@/lib/domain/intake/answers";
import { database } from "./client";
import { observationsFrom } from "./findings";

/** A filed claim as the ranking needs it. */
export interface ClaimToRank {
  id: string;
  observations: Observation[];
  fuel: string | undefined;
  context: ClaimContext;
  /** Primary cause of the verdict that stands, or null. */
  verdict: CauseCode | null;
}

const FILED = { stage: { not: "draft" } } as const;

export function countClaimsToRank(): Promise<number> {
  return database().claim.count({ where: FILED });
}

/** The next filed claims after this one, by id: all of them are read piece by piece, whatever comes in meanwhile. */
export async function listClaimsToRank(after: string | null, take: number): Promise<ClaimToRank[]> {
  const claims = await database().claim.findMany({
    where: { ...FILED, ...(after === null ? {} : { id: { gt: after } }) },
    orderBy: { id: "asc" },
    take,
    select: {
      id: true,
      answers: true,
      vehicleId: true,
      vehicle: { select: { fuel: true } },
      kitRevision: { select: { kitId: true } },
      findings: { where: { replacedAt: null }, orderBy: [{ observedAt: "asc" }, { id: "asc" }], select: { code: true, observer: true, answer: true, measured: true, spread: true } },
      verdicts: { where: { supersededAt: null }, select: { primaryCause: true } },
    },
  });
  return claims.map(({ id, answers, vehicleId, vehicle, kitRevision, findings, verdicts }) => ({
    id,
    observations: observationsFrom(findings),
    fuel: fuelOf({ vehicle, answers: answers as IntakeAnswers }),
    context: { kit: kitRevision?.kitId ?? null, vehicle: vehicleId },
    verdict: verdicts[0]?.primaryCause ?? null,
  }));
}
