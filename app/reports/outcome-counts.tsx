import { OUTCOME_NAMES, OUTCOMES, type Outcome } from "@/lib/domain/reporting/outcomes";
import { claimsAddress, type Parameters } from "./addresses";
import styles from "./reports.module.css";

/** How many claims were laid to what, each count leading to its claims. */
export function OutcomeCounts({ outcomes, selection }: { outcomes: Readonly<Record<Outcome, number>>; selection: Parameters }) {
  return (
    <span className={styles.outcomes}>
      {OUTCOMES.filter((outcome) => outcomes[outcome] > 0).map((outcome) => (
        <a key={outcome} className={styles.nowrap} href={claimsAddress({ ...selection, outcome })}>
          {OUTCOME_NAMES[outcome]} {outcomes[outcome]}
        </a>
      ))}
    </span>
  );
}
