import type { LoadedSelection } from "@/lib/operations/load-causes-of-a-selection";
import { signalAddress } from "../addresses";
import styles from "./signals.module.css";
import { decisionInWords, sentenceOf, surenessInWords } from "./words";

/** What stands out of a selection beyond chance, beside its figures: whoever is handed the one page finds it there. */
export function SignalsAbout({ loaded }: { loaded: LoadedSelection }) {
  if (loaded.signals.length === 0) return null;
  return (
    <div className={`sheet ${styles.about}`}>
      {loaded.signals.map((signal) => (
        <p key={signal.id}>
          <b>
            Beyond chance: <a href={signalAddress(signal.id)}>{sentenceOf(signal, loaded)}</a>.
          </b>{" "}
          {surenessInWords(signal.figures.falseDiscoveryRate)}. {signal.decisions[0] ? `${decisionInWords(signal.decisions[0]).replace(/^./, (first) => first.toUpperCase())}.` : "It waits for a decision."}
        </p>
      ))}
    </div>
  );
}
