import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { type Db, inTransaction } from "@/lib/data/client";
import { findEdition, findPromotedLast, insertEdition, loadEdition, lockEditions } from "@/lib/data/editions";
import { diffEditions, unexplainedChanges } from "@/lib/domain/diagnosis/edition-diff";
import type { EditionOrigin } from "@/lib/domain/diagnosis/editions";
import { linesSchema } from "@/lib/inputs/text";
import { type EditionIssue, readEdition } from "@/lib/inputs/edition";
import { auditActor, refuse, type Refusal } from "./refusal";

export interface Proposal {
  /** The whole document; its number is given here. */
  document: unknown;
  /** Number of the edition it was made from. */
  basis: number;
  origin: Exclude<EditionOrigin, "shipped">;
  /** What it is for, in a person's words. */
  why: string;
}

export type ProposeEditionResult =
  | { ok: true; number: number }
  /** Fields that cannot stand, by name: `causes.C01.base.value`. Nothing was kept. */
  | { ok: false; reason: "refused"; issues: readonly EditionIssue[] }
  | { ok: false; reason: "unknown-basis" }
  /** It states what the edition in force states. */
  | { ok: false; reason: "nothing-changed" };

const LONGEST_WHY = 2000;
const whySchema = linesSchema(LONGEST_WHY, "Say what the new edition is for");

/** Proposes an edition of the knowledge: kept whole under a number of its own, in force only once it is promoted. */
export async function proposeEdition(actor: StaffActor, proposal: Proposal): Promise<ProposeEditionResult | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  return inTransaction((db) => keepProposal(db, proposal, { actor: auditActor(actor), personId: actor.personId }));
}

/**
 * Checks a proposed edition and keeps it, in the transaction of whatever brought it. Part of other operations, which
 * have checked who asks; `personId` is null where the program itself proposes.
 */
export async function keepProposal(
  db: Db,
  { document, basis, origin, why }: Proposal,
  by: { actor: { kind: "customer" } | { kind: "staff"; personId: string } | { kind: "system" }; personId: string | null },
): Promise<ProposeEditionResult> {
  const read = readEdition(document);
  const reason = whySchema.safeParse(why);
  const issues = [...(read.ok ? [] : read.issues), ...(reason.error?.issues.map(({ message }) => ({ path: "why", message })) ?? [])];
  if (!read.ok || !reason.success) return { ok: false, reason: "refused", issues };

  await lockEditions(db);
  if (!(await findEdition(basis, db))) return { ok: false, reason: "unknown-basis" };
  // What verdicts taught says so by its counts; what a person types may look as if nobody had touched it.
  const unexplained = origin === "by_hand" ? unexplainedChanges(await loadEdition(basis, db), read.edition) : [];
  if (unexplained.length > 0) {
    return { ok: false, reason: "refused", issues: unexplained.map((path) => ({ path: path.replace(/\.value$/, ".provenance"), message: "Say where the new figure comes from." })) };
  }
  const inForce = await findPromotedLast(db);
  if (diffEditions(await loadEdition(inForce.number, db), read.edition).length === 0) return { ok: false, reason: "nothing-changed" };

  const number = await insertEdition(db, { edition: read.edition, origin, basisNumber: basis, why: reason.data, proposedById: by.personId });
  await appendAudit(db, { actor: by.actor, action: "propose_edition", detail: { edition: number, basis, origin } });
  return { ok: true, number };
}
