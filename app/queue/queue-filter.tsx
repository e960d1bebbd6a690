import { QUEUE_MARKS, QUEUE_SORTS, type QueueMark, type QueueSort } from "@/lib/domain/claims/queue-order";
import { CLAIM_STAGES, QUEUE_STAGES, STAGE_NAMES } from "@/lib/domain/claims/stages";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import type { QueueFilter } from "@/lib/inputs/queue-filter";
import { KeyHint } from "./keys";
import css from "./queue.module.css";
import { ATTRIBUTION_WORDS } from "./words";

export const SORT_NAMES: Readonly<Record<QueueSort, string>> = {
  risk: "risk, then promised time, then worth of a look",
  promised: "promised time",
  value: "worth of a look",
  newest: "newest first",
  unit: "unit most likely at fault",
  leader: "surest cause first",
};

export const MARK_NAMES: Readonly<Record<QueueMark, string>> = {
  late: "late",
  wrote: "the customer wrote",
  still: "engine must stand still",
  back: "back with answers",
  lapsing: "about to lapse",
  unreached: "no mail gets through",
  second_look: "waits for a second pair of eyes",
};

const isOpen = (stage: string) => QUEUE_STAGES.some((open) => open === stage);

/** What the queue shows; sent as the address, so that a view can be kept and passed on. */
export function QueueFilterForm({ filter, kits }: { filter: QueueFilter; kits: readonly { code: string; name: string }[] }) {
  return (
    <form className={`${css.filter} no-print`} action="/queue" aria-label="What is shown">
      <label>
        <span>
          Stage <KeyHint sign="F" />
        </span>
        <select name="stage" defaultValue={filter.stage ?? ""} data-key="f">
          <option value="">all that wait</option>
          {CLAIM_STAGES.filter(isOpen).map((stage) => (
            <option key={stage} value={stage}>
              {STAGE_NAMES[stage]}
            </option>
          ))}
          <option value="ended">all ended</option>
          {CLAIM_STAGES.filter((stage) => stage !== "draft" && !isOpen(stage)).map((stage) => (
            <option key={stage} value={stage}>
              {STAGE_NAMES[stage]}
            </option>
          ))}
        </select>
      </label>
      <label>
        Only those
        <select name="mark" defaultValue={filter.mark ?? ""}>
          <option value="">all</option>
          {QUEUE_MARKS.map((mark) => (
            <option key={mark} value={mark}>
              {MARK_NAMES[mark]}
            </option>
          ))}
        </select>
      </label>
      <label>
        Leader lies with
        <select name="attribution" defaultValue={filter.attribution ?? ""}>
          <option value="">any</option>
          {ATTRIBUTIONS.map((attribution) => (
            <option key={attribution} value={attribution}>
              {ATTRIBUTION_WORDS[attribution]}
            </option>
          ))}
        </select>
      </label>
      <label>
        Kit
        <select name="kit" defaultValue={filter.kit ?? ""}>
          <option value="">all kits</option>
          {kits.map(({ code, name }) => (
            <option key={code} value={code}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <label>
        In hand of
        <select name="who" defaultValue={filter.who ?? ""}>
          <option value="">anybody</option>
          <option value="mine">me</option>
          <option value="nobody">nobody</option>
        </select>
      </label>
      <label>
        <span>
          Order <KeyHint sign="S" />
        </span>
        <select name="sort" defaultValue={filter.sort} data-key="s">
          {QUEUE_SORTS.map((sort) => (
            <option key={sort} value={sort}>
              {SORT_NAMES[sort]}
            </option>
          ))}
        </select>
      </label>
      <button type="submit" className="button tight">
        Show
      </button>
    </form>
  );
}
