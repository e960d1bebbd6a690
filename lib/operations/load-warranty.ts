import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findLatestRanking } from "@/lib/data/rankings";
import { loadSettings } from "@/lib/data/settings";
import { findWarrantyFactsOfClaim, listTerms } from "@/lib/data/warranty-terms";
import { answer, type IntakeAnswers } from "@/lib/domain/intake/answers";
import { dayAt, dayOfColumn } from "@/lib/domain/warranty/calendar-day";
import { lossGroundsShown } from "@/lib/domain/warranty/loss-grounds-shown";
import { type WarrantyOutcome, warrantyOutcome } from "@/lib/domain/warranty/outcome";
import { refuse, type Refusal } from "./refusal";

export type LoadWarrantyResult = { ok: true; outcome: WarrantyOutcome } | Refusal | { ok: false; reason: "not-found" };

/** How a claim stands under the terms in force when its unit shipped, term by term. Nothing follows from it by itself. */
export async function loadWarranty(actor: StaffActor, claimId: string): Promise<LoadWarrantyResult> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const [claim, terms, kept, { timeZone }] = await Promise.all([findWarrantyFactsOfClaim(claimId), listTerms(), findLatestRanking(claimId), loadSettings()]);
  if (!claim?.filedAt) return { ok: false, reason: "not-found" };
  const shipment = claim.shipment ?? claim.unit?.shipment ?? null;
  const [verdict] = claim.verdicts;
  const outcome = warrantyOutcome(
    terms.filter(({ inForceAt }) => inForceAt !== null),
    {
      filedOn: dayAt(claim.filedAt, timeZone),
      shippedOn: shipment && dayOfColumn(shipment.shippedOn),
      fittedOn: claim.fittedOn && dayOfColumn(claim.fittedOn),
      distanceKm: claim.distanceKm,
      hoursRun: claim.hoursRun,
      fittedBy: fittedBy(claim.answers as IntakeAnswers, claim),
      kit: claim.kitRevision?.kit.code ?? null,
      country: claim.country ?? shipment?.order.country ?? null,
      ...lossGroundsShown(verdict ? [verdict.primaryCause, ...verdict.contributingCauses] : [], kept?.ranking ?? null),
    },
  );
  return { ok: true, outcome };
}

/** Who fitted it: whoever files says so; a technician who files for a customer, or a fitter by name, is a workshop. */
function fittedBy(answers: IntakeAnswers, { filedBy, fitterId }: { filedBy: string | null; fitterId: string | null }): "owner" | "workshop" | null {
  const told = answer(answers, "fitting", "fitter");
  if (told === "garage" || fitterId !== null) return "workshop";
  return told === "self" ? (filedBy === "technician" ? "workshop" : "owner") : null;
}
