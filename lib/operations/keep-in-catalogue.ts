import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { deleteEntry, giveClaimsToFitter, isEntryUsed, keepEntry, lockEntry } from "@/lib/data/catalogue";
import { inTransaction, isMissingReference, isUniqueViolation } from "@/lib/data/client";
import type { CatalogueEntries, EntryKind } from "@/lib/domain/catalogue/entries";
import { fingerprintOf } from "./fingerprint";
import { auditActor, refuse, type Refusal } from "./refusal";

export type KeepResult =
  | { ok: true; id: string }
  | Refusal
  | { ok: false; reason: "not-found" }
  | { ok: false; reason: "taken" }
  /** Somebody else changed it since it was read: nothing is overwritten. */
  | { ok: false; reason: "changed-meanwhile"; seen: string };

/**
 * Keeps an entry of the catalogue. What was sold before keeps pointing at it, so a change is a correction: another thing
 * is another entry.
 *
 * @param id null for a new one
 * @param seen fingerprint of the entry the person read
 */
export async function keepInCatalogue<Kind extends EntryKind>(actor: StaffActor, kind: Kind, id: string | null, entry: CatalogueEntries[Kind], seen: string): Promise<KeepResult> {
  const refused = await refuse(actor, "change the catalogue");
  if (refused) return refused;
  try {
    return await inTransaction(async (db): Promise<KeepResult> => {
      const before = id === null ? null : await lockEntry(db, kind, id);
      if (id !== null && !before) return { ok: false, reason: "not-found" };
      if (before && fingerprintOf(before) !== seen) return { ok: false, reason: "changed-meanwhile", seen: fingerprintOf(before) };
      const keptId = await keepEntry(db, kind, id, entry);
      await appendAudit(db, { actor: auditActor(actor), action: id === null ? "add_to_catalogue" : "correct_catalogue", detail: { kind, id: keptId } });
      return { ok: true, id: keptId };
    });
  } catch (error) {
    if (isUniqueViolation(error)) return { ok: false, reason: "taken" };
    // What it was tied to has been taken out since the form was opened.
    if (isMissingReference(error)) return { ok: false, reason: "not-found" };
    throw error;
  }
}

/** Takes out an entry on which nothing stands yet. */
export async function removeFromCatalogue(actor: StaffActor, kind: EntryKind, id: string): Promise<{ ok: true } | Refusal | { ok: false; reason: "not-found" | "in-use" }> {
  const refused = await refuse(actor, "change the catalogue");
  if (refused) return refused;
  return inTransaction(async (db) => {
    if (!(await lockEntry(db, kind, id))) return { ok: false, reason: "not-found" };
    if (await isEntryUsed(db, kind, id)) return { ok: false, reason: "in-use" };
    await deleteEntry(db, kind, id);
    await appendAudit(db, { actor: auditActor(actor), action: "remove_from_catalogue", detail: { kind, id } });
    return { ok: true };
  });
}

/** Says that two fitters are one: the claims of the first go to the second, and the first is no more. */
export async function joinFitters(actor: StaffActor, from: string, into: string): Promise<{ ok: true; claims: number } | Refusal | { ok: false; reason: "not-found" | "same" }> {
  const refused = await refuse(actor, "change the catalogue");
  if (refused) return refused;
  if (from === into) return { ok: false, reason: "same" };
  return inTransaction(async (db) => {
    // Always in the same order, so that two who join a pair from both ends do not wait for each other.
    for (const id of [from, into].sort()) if (!(await lockEntry(db, "fitters", id))) return { ok: false, reason: "not-found" };
    const claims = await giveClaimsToFitter(db, from, into);
    await deleteEntry(db, "fitters", from);
    await appendAudit(db, { actor: auditActor(actor), action: "join_fitters", detail: { from, into, claims } });
    return { ok: true, claims };
  });
}
