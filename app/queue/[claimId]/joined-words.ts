import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import type { UnitNotice } from "@/lib/domain/claims/same-unit";

/** What is noticed about a unit, and what it may mean: never more than may. */
export const NOTICE_WORDS: Readonly<Record<UnitNotice["kind"], { says: string; means: string }>> = {
  "filed-twice": { says: "The same person has another open complaint about this serial", means: "It may be the same complaint twice: then merge this one into the other." },
  "owner-and-garage": { says: "Somebody else has an open complaint about this serial", means: "It may be the owner and the garage: merge if it is the same oil leak. The unit may also have been sold on, or the serial misread: then link them." },
  "replaced-already": { says: "This serial was replaced or paid back already", means: "The unit should not be in use any more. The serial may be misread, or the unit kept. Ask for a photo of the plate." },
  "complained-of-before": { says: "This serial was complained of before", means: "What was found and done then may explain this. If it has to do with it, link them." },
  "sent-to-another": { says: "The unit was sent to somebody else", means: "A garage may have bought it for the owner, or it was sold on. Whether the terms go with it depends on the terms and the law." },
};

/** @example "K7A-4821-HXQ, awaiting checks" */
export function noticedClaim(notice: UnitNotice): { id: string; words: string } | null {
  return "claim" in notice ? { id: notice.claim.id, words: `${notice.claim.reference}, ${STAGE_NAMES[notice.claim.stage]}` } : null;
}
