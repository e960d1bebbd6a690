import { QUEUE_SORTS, type QueueSort } from "@/lib/domain/claims/queue-order";
import { CLAIM_STAGES, QUEUE_STAGES, STAGE_NAMES } from "@/lib/domain/claims/stages";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import type { QueueFilter } from "@/lib/inputs/queue-filter";
import { KeyHint } from "./keys";
import css from "./queue.module.css";

export const SORT_NAMES: Readonly<Record<QueueSort, string>> = {
  risk: "risk, then promised time",
  promised: "promised time",
  newest: "newest first",
  unit: "unit most likely at fault",
  leader: "surest cause first",
};

const isOpen = (stage: string) => QUEUE_STAGES.some((open) => open === stage);

/** What the queue shows; sent as the address, so that a view can be kept and passed on. */
export function QueueFilterForm({ filter, kits }: { filter: QueueFilter; kits: readonly { code: string; name: string }[] }) {
  return (
    <search>
      <form className={`${css.filter} no-print`} action="/queue">
        <label>
          <span>
            Reference, serial, order, name or e-mail <KeyHint sign="/" />
          </span>
          <input name="q" type="search" defaultValue={filter.q ?? ""} maxLength={100} data-key="/" />
        </label>
        <label>
          Stage
          <select name="stage" defaultValue={filter.stage ?? ""}>
            <option value="">waiting; in a search any</option>
            <option value="open">all that wait</option>
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
          Leader lies with
          <select name="attribution" defaultValue={filter.attribution ?? ""}>
            <option value="">any</option>
            {ATTRIBUTIONS.map((attribution) => (
              <option key={attribution} value={attribution}>
                {attribution}
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
          Order
          <select name="sort" defaultValue={filter.sort}>
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
    </search>
  );
}
