import type { StaffActor } from "@/lib/access/actors";
import { findPromotedLast, loadEditionInForce } from "@/lib/data/editions";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { proposeEdition } from "@/lib/operations/propose-edition";

/** The edition in force with one cause's base figure multiplied. */
export function withBase(edition: Edition, code: string, factor: number): Edition {
  return { ...edition, causes: edition.causes.map((cause) => (cause.code === code ? { ...cause, base: { value: cause.base.value * factor, provenance: { kind: "common practice", note: `${factor} times ${cause.base.value}` } } } : cause)) };
}

/** A proposed edition made from the one in force. Returns its number. */
export async function aProposedEdition(actor: StaffActor, document?: unknown): Promise<number> {
  const [{ number: basis }, edition] = await Promise.all([findPromotedLast(), loadEditionInForce()]);
  const proposed = await proposeEdition(actor, { document: document ?? withBase(edition, "C01", 1.5), basis, origin: "by_hand", why: "The drain is seen more often" });
  if (!proposed.ok) throw new Error(`the builder's own edition was refused: ${JSON.stringify(proposed)}`);
  return proposed.number;
}
