import { type FindingSource, SOURCE_WORDS } from "@/lib/domain/claims/finding-sources";
import { formatMoney } from "@/lib/domain/claims/money";
import { REMEDY_NAMES, type Remedy } from "@/lib/domain/claims/remedies";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import type { StaffClaim } from "@/lib/operations/load-claim";
import { REMEDY_WORDS } from "../words";

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
      return taker === actor ? "took it" : `gave it to ${taker}`;
    }
    case "ask_for_check":
      return `asked for a check${finding}`;
    case "answer_check":
      return detail.told === false ? `could not tell${finding}` : `answered a check${finding}`;
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
    case "return_dispositioned":
      return "said what becomes of the unit";
    case "return_expired":
      return "closed the return: the unit did not come in time";
    case "inspect_unit":
    case "inspect_late":
      return `inspected the unit on the bench${detail.serial === "differs" ? ", and took it for the one of this claim though its serial is another" : ""}`;
    case "decide": {
      const cause = edition.causes.find(({ code }) => code === (word("primaryCause") ?? word("cause")))?.name;
      const remedy = word("remedy");
      return `decided it${cause ? `: ${cause}` : ""}${remedy && remedy in REMEDY_WORDS ? `; ${REMEDY_WORDS[remedy as Remedy]}` : ""}`;
    }
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
      return "said that a check put it right";
    case "withdraw":
      return "took the complaint back";
    case "lapse":
      return "closed it for want of an answer";
    case "merge":
      return "merged it into another claim";
    default:
      return action.replaceAll("_", " ");
  }
}

function findingName(code: string | null, edition: Edition): string {
  const name = edition.findings.find((finding) => finding.code === code)?.name;
  return name ? `: ${name}` : "";
}

/** @example "€129.50 for refund"; a reversal keeps the opposite amount */
function booking({ remedy, amountMinor, currency }: Act["detail"]): string {
  return `${formatMoney(Math.abs(Number(amountMinor)), String(currency))} for ${REMEDY_NAMES[remedy as Remedy]}`;
}
