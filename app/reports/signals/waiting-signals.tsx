import type { StaffActor } from "@/lib/access/actors";
import { loadWaitingSignals } from "@/lib/operations/load-signals";
import { signalsAddress } from "../addresses";
import styles from "./signals.module.css";

/** A line at the top of other pages where signals wait: how many, and the way to them. */
export async function WaitingSignals({ actor }: { actor: StaffActor }) {
  const signals = await loadWaitingSignals(actor);
  if (!signals.ok || signals.waiting === 0) return null;
  const { waiting } = signals;
  return (
    <p className={`${styles.waiting} letter no-print`}>
      <a href={signalsAddress({})}>{waiting === 1 ? "1 signal waits for a decision" : `${waiting} signals wait for a decision`}</a>
    </p>
  );
}
