import { RETURN_REFUSALS, type ReturnRefusal } from "./refusals";

/** What was just done at the door or the bench, named in the address after a redirect. */
const SAID = {
  "received-matches": "Taken in. The serial is the one of the claim.",
  "received-other-of-pair": "Taken in. It is the other unit of the pair, and belongs to the claim.",
  "received-differs": "Taken in, but with another serial than the claim\u2019s. The desk has to say whether it is the unit.",
  "received-nothing-to-compare": "Taken in. There was no serial to compare.",
  "corrected-matches": "Kept. The serial is the one of the claim.",
  "corrected-other-of-pair": "Kept. It is the other unit of the pair, and belongs to the claim.",
  "corrected-differs": "Kept, and it is still another serial than the claim\u2019s.",
  "corrected-nothing-to-compare": "Kept. There is no serial to compare.",
  brought: "Handed over.",
  "taken-in": "Taken in, and into quarantine. Write this number on the parcel.",
  matched: "Matched. It is the unit of this claim from now on.",
  closed: "Kept. The parcel may leave the house.",
  "place-alone": "That is a place. Scan the unit first, then where it goes.",
} as const;
export type SaidCode = keyof typeof SAID | ReturnRefusal;

/** The sentence behind a code in an address, and whether something was refused; null for what is none of ours. */
export function saidInWords(code: string | undefined): { words: string; isRefused: boolean } | null {
  if (code === undefined) return null;
  if (Object.hasOwn(SAID, code)) return { words: SAID[code as keyof typeof SAID], isRefused: code === "received-differs" || code === "corrected-differs" || code === "place-alone" };
  return Object.hasOwn(RETURN_REFUSALS, code) ? { words: RETURN_REFUSALS[code as ReturnRefusal], isRefused: true } : null;
}
