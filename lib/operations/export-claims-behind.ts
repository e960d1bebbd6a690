import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { fromMinor } from "@/lib/domain/claims/money";
import { type FileTable, fileTable } from "@/lib/files/table";
import type { ClaimsBehindFilter } from "@/lib/inputs/report-filter";
import type { UnknownInFilter } from "./check-report-filter";
import { loadClaimsBehind } from "./load-claims-behind";
import { type Refusal, refuse } from "./refusal";

const COLUMNS = {
  reference: "reference",
  filed: "filed",
  stage: "stage",
  kit: "kit",
  revision: "revision",
  vehicle: "vehicle",
  batch: "batch",
  monthInService: "month in service",
  cause: "cause",
  contributing: "contributing",
  attribution: "laid to",
  origin: "origin",
  remedy: "remedy",
  cost: "cost so far",
  currency: "currency",
} as const;

/** The claims behind a figure as a table, all of them. A claim with costs in two currencies has two lines. */
export async function exportClaimsBehind(actor: StaffActor, filter: ClaimsBehindFilter): Promise<{ ok: true; table: FileTable } | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const behind = await loadClaimsBehind(actor, filter, "all");
  if (!behind.ok) return behind;
  const day = new Intl.DateTimeFormat("en-CA", { timeZone: behind.timeZone, dateStyle: "short" });
  const rows = behind.claims.flatMap(({ reference, filedAt, stage, kit, revision, vehicle, batch, monthInService, cause, contributing, attribution, origin, remedy, costs }) =>
    (costs.length > 0 ? costs : [null]).map((cost) => ({
      reference,
      filed: day.format(filedAt),
      stage,
      kit,
      revision,
      vehicle,
      batch,
      monthInService,
      cause,
      contributing: contributing.join(" "),
      attribution,
      origin,
      remedy,
      cost: cost ? fromMinor(cost.amountMinor, cost.currency) : null,
      currency: cost?.currency ?? null,
    })),
  );
  return { ok: true, table: fileTable(COLUMNS, rows) };
}
