import { PARCEL_CONDITION_NAMES } from "@/lib/domain/claims/custody";
import type { ShownStep } from "@/lib/operations/shown-custody";
import { momentIn } from "./return-words";
import styles from "./returns.module.css";

/** Where a unit has been, newest first; what nobody wrote down stands between. */
export function CustodySteps({ steps, timeZone }: { steps: readonly ShownStep[]; timeZone: string }) {
  return (
    <ol reversed className={styles.steps}>
      {steps.toReversed().flatMap(({ number, at, by, from, to, condition, note, gap }) => [
        <li key={number}>
          <span className="num">{momentIn(timeZone, at)}</span> {by}: {from ?? "from outside"} to <strong>{to}</strong>
          {condition ? `, ${PARCEL_CONDITION_NAMES[condition]}` : ""}
          {note ? <span className="small soft"> {note}</span> : null}
        </li>,
        ...(gap
          ? [
              <li key={`${number}-gap`} className={styles.gap}>
                Gap: since <span className="num">{momentIn(timeZone, gap.since)}</span> it was at {gap.from}, and nobody wrote down how it came {gap.to ? `to ${gap.to}` : "out and in again"}
              </li>,
            ]
          : []),
      ])}
    </ol>
  );
}
