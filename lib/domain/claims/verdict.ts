import type { Attribution, Origin } from "../diagnosis/attributions";
import type { CauseCode } from "../diagnosis/knowledge";
import type { VerdictPromise } from "./bookings";
import type { Remedy } from "./remedies";
import type { Role } from "./roles";

/** Staff either confirm the ranking's leader or overrule it, with a reason. */
export const VERDICT_WAYS = ["confirmed", "overruled"] as const;
export type VerdictWay = (typeof VERDICT_WAYS)[number];

/** What the verdict rests on, weakest first. Learning weighs a bench inspection above a customer's word. */
export const VERDICT_BASES = ["customer_word", "photo", "technician", "bench"] as const;
export type VerdictBasis = (typeof VERDICT_BASES)[number];

/** Whether a claim has been decided and none of its verdicts stands any more: it was appealed and waits for another. */
export function isContested(verdicts: readonly { supersededAt: Date | null }[]): boolean {
  return verdicts.length > 0 && verdicts.every(({ supersededAt }) => supersededAt !== null);
}

/** What staff confirmed: one primary cause, any contributing ones, and what is done about it. */
export interface Verdict extends VerdictPromise {
  primaryCause: CauseCode;
  contributingCauses: readonly CauseCode[];
  attribution: Attribution;
  origin: Origin | null;
  way: VerdictWay;
  basis: VerdictBasis;
  reason: string;
  remedy: Remedy;
  /** Photos that go with the letter. */
  letterPhotos: readonly string[];
}

/**
 * Whoever gave the verdict that was taken back does not give the next one: an objection is looked at by somebody else.
 * Only an administrator may decide it again themselves.
 */
export function mayDecideAgain(person: { id: string; role: Role }, verdicts: readonly { decidedById: string; decidedAt: Date; supersededAt: Date | null }[]): boolean {
  if (!isContested(verdicts) || person.role === "admin") return true;
  const last = verdicts.reduce((newest, verdict) => (verdict.decidedAt > newest.decidedAt ? verdict : newest));
  return last.decidedById !== person.id;
}
