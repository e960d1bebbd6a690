import { type FindingSource, SOURCE_WORDS } from "@/lib/domain/claims/finding-sources";
import { BOOKING_NAMES, type BookingKind } from "@/lib/domain/claims/bookings";
import { DISPOSITION_NAMES, type DispositionKind } from "@/lib/domain/claims/dispositions";
import { formatMoney } from "@/lib/domain/claims/money";
import { PAIR_UNIT_NAMES, type PairUnit } from "@/lib/domain/claims/pair-units";
import { PARCEL_REASON_NAMES, type ParcelReason } from "@/lib/domain/claims/parcels";
import { REMEDY_NAMES, type Remedy } from "@/lib/domain/claims/remedies";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import type { StaffClaim } from "@/lib/operations/load-claim";
import { REMEDY_WORDS } from "../words";

/** What an entry of the story is about, to read one thread of it alone. */
export const STORY_THREADS = ["found", "written", "unit", "decided", "desk"] as const;
export type StoryThread = (typeof STORY_THREADS)[number];

export const THREAD_WORDS: Readonly<Record<StoryThread, string>> = {
  found: "checks, findings and photos",
  written: "messages and notes",
  unit: "the unit’s way",
  decided: "verdict and money",
  desk: "who has it, and other claims",
};

const THREADS: readonly (readonly [StoryThread, RegExp])[] = [
  ["found", /check|finding|rank|photo|mark/],
  ["written", /message|note|answer|bounce|remind/],
  ["unit", /return|unit|serial|parcel|bench|inspect|disposition|supplier|charge/],
  ["decided", /decide|verdict|opinion|settle|appeal|book|clear|withdraw|lapse|confirm|second_person/],
];

/** The thread an act belongs to; whatever fits none is the desk's own business. */
export function threadOf(action: string): StoryThread {
  return THREADS.find(([, acts]) => acts.test(action))?.[0] ?? "desk";
}

type Act = Pick<StaffClaim["story"][number], "actor" | "action" | "detail">;

/** An audit entry as the rest of a sentence that begins with who did it. */
export function actInWords({ actor, action, detail }: Act, { edition, people }: Pick<StaffClaim, "edition" | "people">): string {
  const word = (key: string) => (typeof detail[key] === "string" ? detail[key] : null);
  const finding = findingName(word("finding"), edition);
  switch (action) {
    case "file":
      return "filed the complaint";
    case "take_up":
      return "took it up";
    case "hand_over": {
      if (!word("to")) return "put it back for anybody";
      const taker = people.find(({ id }) => id === word("to"))?.name ?? "somebody no longer here";
      const words = word("reason");
      return `${taker === actor ? "took it" : `gave it to ${taker}`}${words ? `: \u201c${words}\u201d` : ""}`;
    }
    case "ask_for_check":
      return `asked for a check${finding}`;
    case "answer_check":
      return detail.told === false ? `could not tell${finding}` : `answered a check${finding}`;
    case "tell_check":
      return detail.told === false ? `looked and could not tell${finding}` : `told what a check found${finding}`;
    case "clear_draft":
      return "ended a draft: a check put it right";
    case "change_units":
      return `reads in ${detail.units} units now`;
    case "answer_checks":
      return "closed the last open check";
    case "withdraw_check":
      return `took back a check${finding}`;
    case "record_finding":
      return `recorded a finding${SOURCE_WORDS[detail.source as FindingSource] ? `, ${SOURCE_WORDS[detail.source as FindingSource]}` : ""}${finding}`;
    case "rank_anew":
      return `ranked it anew with edition ${detail.edition}`;
    case "attach_photo":
      return "added a photo";
    case "remove_photo":
      return "removed a photo";
    case "write_message":
      return "wrote a message";
    case "need_no_answer":
      return "said that the last message needs no answer";
    case "authorise_return":
      return "asked for the unit to be sent in";
    case "return_in_carriage":
      return "saw the unit set out";
    case "return_received":
    case "receive_return":
      return "received the unit";
    case "correct_serial":
      return "corrected the serial read on the unit";
    case "return_on_the_bench":
      return "put the unit on the bench";
    case "return_dispositioned": {
      const kind = word("kind");
      return kind && kind in DISPOSITION_NAMES ? `decided that the unit is ${DISPOSITION_NAMES[kind as DispositionKind]}${word("reason") ? `: ${word("reason")}` : ""}` : "said what becomes of the unit";
    }
    case "take_over_inspection":
      return "took the inspection over";
    case "record_at_bench":
      return "recorded what the bench found";
    case "return_expired":
      return "closed the return: the unit did not come in time";
    case "remind_of_return":
      return "reminded the customer of the unit";
    case "prolong_return":
      return `gave ${detail.days} more days to send the unit`;
    case "return_set_out":
      return "said that the unit is on its way";
    case "keep_label_sender":
      return "wrote a name and address for the label";
    case "hand_over_unit":
      return `handed over the unit${word("place") ? `: ${word("place")}` : ""}${detail.isGap === true ? ", which was found elsewhere than last said" : ""}`;
    case "take_for_same_unit":
      return "said that it is the unit of this claim though its serial is another";
    case "set_unit_aside":
      return "set the unit aside as another one: the right one is still awaited";
    case "take_in_parcel":
      return `took in a parcel that ${PARCEL_REASON_NAMES[detail.why as ParcelReason] ?? "is not the unit"}`;
    case "match_parcel":
      return "matched a parcel from quarantine to this claim as its unit";
    case "close_parcel":
      return "said what becomes of a parcel from quarantine";
    case "unit_after_all":
      return "put it back to awaiting the unit, which comes after all";
    case "inspect_unit":
    case "inspect_late":
      return `inspected the unit on the bench${detail.serial === "differs" ? ", and took it for the one of this claim though its serial is another" : ""}`;
    case "decide": {
      const cause = edition.causes.find(({ code }) => code === (word("primaryCause") ?? word("cause")))?.name;
      const remedy = word("remedy");
      return `${word("proposedBy") ? "approved the verdict that was proposed" : "decided it"}${cause ? `: ${cause}` : ""}${remedy && remedy in REMEDY_WORDS ? `; ${REMEDY_WORDS[remedy as Remedy]}` : ""}`;
    }
    case "propose_verdict":
      return "proposed a verdict, which waits for a second person";
    case "send_back_verdict":
      return `sent the verdict back that waited${word("reason") ? `: ${word("reason")}` : ""}`;
    case "take_back_verdict":
      return "took the verdict back that waited";
    case "give_second_opinion":
      return "gave a second opinion, blind";
    case "book_settlement":
      return `booked ${booking(detail)}`;
    case "reverse_settlement":
      return `reversed the booking of ${booking(detail)}`;
    case "settle":
      return "settled it";
    case "appeal":
      return `took it back into review${word("reason") ? `: ${word("reason")}` : ""}`;
    case "change_language":
      return `chose to read and write ${{ en: "English", de: "German" }[word("language") ?? ""] ?? "another language"}`;
    case "clear":
      return `said that a check put it right${findingName(word("check"), edition)}`;
    case "withdraw":
      return "took the complaint back";
    case "remind_of_checks":
      return "reminded of the checks still open";
    case "give_lapse_notice":
      return "told the customer on which day it ends without an answer";
    case "hold_lapse":
      return "held it from being reminded of and from lapsing";
    case "release_lapse":
      return "let reminders go on";
    case "answer_late":
      return "opened it again by an answer after it had lapsed";
    case "bounce_mail":
      return "could not deliver a mail to the customer";
    case "reach_customer":
      return "reached the customer in another way";
    case "file_for_caller":
      return "took the complaint down for a caller";
    case "lapse":
      return "closed it for want of an answer";
    case "merge":
      return `merged it into ${word("into") ?? "another claim"}: the same complaint`;
    case "take_in":
      return `took in ${word("other")}: the same complaint`;
    case "take_apart":
      return `took it out of ${word("from") ?? "the other claim"} again`;
    case "let_go":
      return `let ${word("other")} go again: not the same complaint`;
    case "link_claims":
      return `linked it with ${word("other")}`;
    case "unlink_claims":
      return `took away the link with ${word("other")}`;
    case "notice_unit":
      return `noticed that its serial is known elsewhere${Array.isArray(detail.others) && detail.others.length > 0 ? `: ${detail.others.join(", ")}` : ""}`;
    case "name_pair_unit":
      return word("pairUnit") ? `said that it is about ${PAIR_UNIT_NAMES[word("pairUnit") as PairUnit]}` : "said that it is no unit of a pair";
    case "mark_photo":
      return `put mark ${detail.number} on a photo`;
    case "remove_mark":
      return `took mark ${detail.number} off a photo`;
    case "write_note":
      return "wrote a note for the desk";
    default:
      return action.replaceAll("_", " ");
  }
}

function findingName(code: string | null, edition: Edition): string {
  const name = edition.findings.find((finding) => finding.code === code)?.name;
  return name ? `: ${name}` : "";
}

/** @example "€129.50: refund"; a reversal keeps the opposite amount */
function booking({ kind, remedy, amountMinor, currency }: Act["detail"]): string {
  // Entries before bookings had kinds named the remedy.
  const what = BOOKING_NAMES[kind as BookingKind] ?? REMEDY_NAMES[remedy as Remedy];
  return `${formatMoney(Math.abs(Number(amountMinor)), String(currency))}: ${what}`;
}
