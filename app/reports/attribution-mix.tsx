import { OUTCOME_NAMES, OUTCOMES, type Outcome } from "@/lib/domain/reporting/outcomes";
import styles from "./reports.module.css";

/** Kit and fitting stand side by side here, so the kit gets a hatching of its own. */
export function KitPattern() {
  return (
    <svg className="patterns" aria-hidden="true" focusable="false">
      <defs>
        <pattern id="pattern-kit" width="4" height="4" patternUnits="userSpaceOnUse">
          <rect className="pattern-ground" width="4" height="4" />
          <line className="pattern-ink" strokeWidth="3" x1="1" y1="0" x2="1" y2="4" />
        </pattern>
      </defs>
    </svg>
  );
}

/** Told apart here, where the sheet's own hatchings do not. */
const OWN_FILLS: Readonly<Partial<Record<Outcome, true>>> = { kit: true, elsewhere: true, undecided: true, ended: true };

type Outcomes = Readonly<Record<Outcome, number>>;

/** What claims were laid to, as a strip divided by length: a mark that stands beside the same in words. Every claim has one outcome, so the parts make up the whole. */
export function AttributionMix({ outcomes }: { outcomes: Outcomes }) {
  return (
    <svg className={styles.mix} aria-hidden="true" focusable="false">
      {partsOf(outcomes).map((part) => (
        <Part key={part.outcome} {...part} />
      ))}
      <rect className={styles.frame} width="100%" height="100%" />
    </svg>
  );
}

/**
 * The same, each part leading to its claims.
 *
 * @param id unique on the page
 */
export function LinkedAttributionMix({ id, outcomes, hrefOf }: { id: string; outcomes: Outcomes; hrefOf: (outcome: Outcome) => string }) {
  return (
    <svg className={`${styles.mix} ${styles.tall}`} aria-labelledby={id}>
      <title id={id}>What the claims were laid to</title>
      {partsOf(outcomes).map((part) => (
        <a key={part.outcome} href={hrefOf(part.outcome)} aria-label={`${OUTCOME_NAMES[part.outcome]}: ${outcomes[part.outcome]}`}>
          <title>{`${OUTCOME_NAMES[part.outcome]}: ${outcomes[part.outcome]}`}</title>
          <Part {...part} />
        </a>
      ))}
      <rect className={styles.frame} width="100%" height="100%" />
    </svg>
  );
}

interface StripPart {
  outcome: Outcome;
  /** Both in per cent of the strip. */
  start: number;
  length: number;
}

function Part({ outcome, start, length }: StripPart) {
  return <rect className={fillOf(outcome)} x={`${start}%`} width={`${length}%`} height="100%" />;
}

function partsOf(outcomes: Outcomes): readonly StripPart[] {
  const total = OUTCOMES.reduce((sum, outcome) => sum + outcomes[outcome], 0);
  let start = 0;
  return OUTCOMES.filter((outcome) => outcomes[outcome] > 0).map((outcome) => {
    const part = { outcome, start, length: (outcomes[outcome] / total) * 100 };
    start += part.length;
    return part;
  });
}

/** A sample of the hatching, for the key and the tables. */
function Swatch({ outcome }: { outcome: Outcome }) {
  return (
    <svg className={styles.swatch} aria-hidden="true">
      <rect className={fillOf(outcome)} x="0" y="0" width="100%" height="100%" />
      <rect className={styles.frame} x="0" y="0" width="100%" height="100%" />
    </svg>
  );
}

/** Which hatching tells what, for the outcomes that occur. */
export function MixKey({ outcomes }: { outcomes: Outcomes }) {
  return (
    <ul className={styles.key}>
      {OUTCOMES.filter((outcome) => outcomes[outcome] > 0).map((outcome) => (
        <li key={outcome}>
          <Swatch outcome={outcome} /> {OUTCOME_NAMES[outcome]}
        </li>
      ))}
    </ul>
  );
}

function fillOf(outcome: Outcome): string | undefined {
  return outcome in OWN_FILLS ? styles[outcome] : `fill-${outcome}`;
}
