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

/**
 * What claims were laid to, as a strip divided by length. Every claim has one outcome, so the parts make up the whole.
 *
 * @param hrefOf the claims behind a part; without it the strip is a mark within a link that says the same in words
 */
export function AttributionMix({ outcomes, hrefOf }: { outcomes: Readonly<Record<Outcome, number>>; hrefOf?: (outcome: Outcome) => string }) {
  const total = OUTCOMES.reduce((sum, outcome) => sum + outcomes[outcome], 0);
  if (total === 0) return null;
  let start = 0;
  const parts = OUTCOMES.filter((outcome) => outcomes[outcome] > 0).map((outcome) => {
    const part = { outcome, x: (start / total) * 100, width: (outcomes[outcome] / total) * 100 };
    start += outcomes[outcome];
    return part;
  });
  return (
    <svg className={hrefOf ? `${styles.mix} ${styles.tall}` : styles.mix} {...(hrefOf ? { role: "group", "aria-label": "What the claims were laid to" } : { "aria-hidden": true })}>
      {parts.map(({ outcome, x, width }) => {
        const mark = <rect className={fillOf(outcome)} x={`${x}%`} width={`${width}%`} y="0" height="100%" />;
        const words = `${OUTCOME_NAMES[outcome]}: ${outcomes[outcome]} of ${total}`;
        return hrefOf ? (
          <a key={outcome} href={hrefOf(outcome)} aria-label={words}>
            <title>{words}</title>
            {mark}
          </a>
        ) : (
          <g key={outcome}>{mark}</g>
        );
      })}
      <rect className={styles.frame} x="0" y="0" width="100%" height="100%" />
    </svg>
  );
}

/** A sample of the hatching, for the key and the tables. */
export function Swatch({ outcome }: { outcome: Outcome }) {
  return (
    <svg className={styles.swatch} aria-hidden="true">
      <rect className={fillOf(outcome)} x="0" y="0" width="100%" height="100%" />
      <rect className={styles.frame} x="0" y="0" width="100%" height="100%" />
    </svg>
  );
}

/** Which hatching tells what, for the outcomes that occur. */
export function MixKey({ outcomes }: { outcomes: Readonly<Record<Outcome, number>> }) {
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
  if (outcome === "kit") return styles.kit;
  if (outcome === "undecided" || outcome === "ended") return styles.blank;
  return `fill-${outcome}`;
}
