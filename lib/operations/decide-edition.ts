import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findEdition, findPromotedLast, loadEdition, lockEditions, markDiscarded, markPromoted } from "@/lib/data/editions";
import { type EditionIssue, readEdition } from "@/lib/inputs/edition";
import type { EditionDecision } from "@/lib/inputs/edition-decision";
import { auditActor, refuse, type Refusal } from "./refusal";

export type PromoteEditionResult =
  | { ok: true }
  | { ok: false; reason: "not-found" }
  /** It was promoted or discarded already. */
  | { ok: false; reason: "not-proposed" }
  /** It was proposed under rules that have become stricter since. */
  | { ok: false; reason: "refused"; issues: readonly EditionIssue[] }
  /** It was made from an edition that is not in force: what came since is not in it, unless the person says so. */
  | { ok: false; reason: "basis-not-in-force"; inForce: number };

/** Puts a proposed edition in force: every claim is ranked with it from its next finding on, in every process at once. */
export async function promoteEdition(actor: StaffActor, number: number, { reason, inSpiteOf }: EditionDecision, now: Date = new Date()): Promise<PromoteEditionResult | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  return inTransaction(async (db): Promise<PromoteEditionResult> => {
    await lockEditions(db);
    const edition = await findEdition(number, db);
    if (!edition) return { ok: false, reason: "not-found" };
    if (edition.promotedAt || edition.discardedAt) return { ok: false, reason: "not-proposed" };
    const checked = readEdition(await loadEdition(number, db));
    if (!checked.ok) return { ok: false, reason: "refused", issues: checked.issues };
    const last = await findPromotedLast(db);
    if (edition.basisNumber !== last.number && inSpiteOf !== last.number) return { ok: false, reason: "basis-not-in-force", inForce: last.number };
    // Two machines' clocks may differ: the one promoted last is the one in force.
    const at = new Date(Math.max(now.getTime(), last.promotedAt.getTime() + 1));
    if (!(await markPromoted(db, number, at))) return { ok: false, reason: "not-proposed" };
    await appendAudit(db, { actor: auditActor(actor), action: "promote_edition", detail: { edition: number, before: last.number, reason } });
    return { ok: true };
  });
}

export type DiscardEditionResult = { ok: true } | { ok: false; reason: "not-found" | "not-proposed" };

/** Lays a proposed edition aside; it stays to be read. */
export async function discardEdition(actor: StaffActor, number: number, { reason }: EditionDecision, now: Date = new Date()): Promise<DiscardEditionResult | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  return inTransaction(async (db): Promise<DiscardEditionResult> => {
    await lockEditions(db);
    if (!(await findEdition(number, db))) return { ok: false, reason: "not-found" };
    if (!(await markDiscarded(db, number, now))) return { ok: false, reason: "not-proposed" };
    await appendAudit(db, { actor: auditActor(actor), action: "discard_edition", detail: { edition: number, reason } });
    return { ok: true };
  });
}
