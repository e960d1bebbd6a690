import type { StaffActor } from "@/lib/access/actors";
import { loadWaitingSignals } from "@/lib/operations/load-signals";
import { signalsAddress } from "../addresses";
import styles from "./signals.module.css";

/** A line at the top of other pages: how many signals wait, and the way to them. */
export async function WaitingSignals({ actor }: { actor: StaffActor }) {
  const signals = await loadWaitingSignals(actor);
  if (!signals.ok) return null;
  const { waiting } = signals;
  return (
    <p className={`${styles.waiting} letter no-print`}>
      <a href={signalsAddress({})}>{waiting === 0 ? "Signals: none waits for a decision" : waiting === 1 ? "1 signal waits for a decision" : `${waiting} signals wait for a decision`}</a>
    </p>
  );
}
