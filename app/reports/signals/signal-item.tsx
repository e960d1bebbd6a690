import { monthInWords } from "@/lib/domain/reporting/month";
import { isChange } from "@/lib/domain/reporting/signals-acts";
import { effectInWords } from "@/lib/domain/reporting/signals-effect-sentence";
import { inZone } from "@/app/queue/times";
import type { SignalKept, SignalsSheet } from "@/lib/operations/load-signals";
import { signalAddress } from "../addresses";
import { claimsInWords } from "../figures-in-words";
import { RatioMark } from "./ratio-mark";
import styles from "./signals.module.css";
import { addressesOf, decisionInWords, rateInWords, sentenceOf, surenessInWords } from "./words";

/** One signal of the list: its sentence, how sure it is, where it stands, and the ways on. */
export function SignalItem({ signal, sheet, scale }: { signal: SignalKept; sheet: SignalsSheet; scale: { from: number; to: number } }) {
  const { figures, standsOut, act } = signal;
  const address = addressesOf(signal, sheet);
  const rate = rateInWords(figures);
  return (
    <li className={`${styles.signal} ${standsOut && act === null ? "" : styles.quiet}`}>
      <h2>{sentenceOf(signal, sheet)}</h2>
      <RatioMark {...figures.ratio} scale={scale} />
      <div>
        <p>
          {surenessInWords(figures.falseDiscoveryRate)}. {rate ? `${rate.replace(/^./, (first) => first.toUpperCase())}.` : ""}
          {signal.watch?.likelyStart && standsOut ? ` What was shipped from about ${monthInWords(signal.watch.likelyStart)} on brings more.` : ""}
        </p>
        <Standing signal={signal} timeZone={sheet.timeZone} />
        <p className="acts no-print">
          <a className="button tight" href={address.claims}>
            See the {claimsInWords(figures.claims)}
          </a>
          <a className="button tight plain" href={address.cell}>
            All its causes
          </a>
          <a className="button tight plain" href={signalAddress(signal.id)}>
            {!sheet.mayDecide ? "More about it" : act === null ? "Mark what was done" : "See it, or mark it anew"}
          </a>
        </p>
      </div>
    </li>
  );
}

/** Where a signal stands: what was done and what came of it, and whether it has faded. */
export function Standing({ signal: { act, standsOut, seenAt, effect, decisions }, timeZone }: { signal: SignalKept; timeZone: string }) {
  const [newest] = decisions;
  const { time } = inZone(timeZone);
  return (
    <>
      {newest ? (
        <p>
          <b>{decisionInWords(newest).replace(/^./, (first) => first.toUpperCase())}.</b> {newest.note}
        </p>
      ) : null}
      {act !== null && isChange(act) ? <p>{effect ? effectInWords(effect) : "Before and after are being compared: load this page again in a moment."}</p> : null}
      {standsOut ? null : <p className="soft">It has faded: it stood out last on {time(seenAt)}, with these figures. What came since is no more than could be chance.</p>}
    </>
  );
}
