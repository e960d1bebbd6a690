import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadSettings } from "@/lib/data/settings";
import { findStandingVerdict } from "@/lib/data/verdicts";
import { type Refusal, refuse } from "./refusal";

export interface Letter {
  ok: true;
  text: string;
  decidedAt: Date;
  seller: { name: string; returnAddress: string; phone: string; email: string; timeZone: string };
}

/** The letter of the verdict that stands, as it was sent. It names the customer. */
export async function loadLetter(actor: StaffActor, claimId: string): Promise<Letter | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "see the customer", claimId);
  if (refused) return refused;
  const [verdict, seller] = await Promise.all([findStandingVerdict(claimId), loadSettings()]);
  return verdict ? { ok: true, text: verdict.letter, decidedAt: verdict.decidedAt, seller } : { ok: false, reason: "not-found" };
}
