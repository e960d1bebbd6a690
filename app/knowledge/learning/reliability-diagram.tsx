import type { ReliabilityBin } from "@/lib/domain/statistics/reliability-curve";
import css from "./learning.module.css";

const SIDE = 300;
const LEFT = 46;
const TOP = 10;
const TICKS = [0, 0.25, 0.5, 0.75, 1];

const x = (share: number) => LEFT + share * SIDE;
const y = (share: number) => TOP + (1 - share) * SIDE;

export interface Curve {
  name: string;
  bins: readonly ReliabilityBin[];
  /** Filled circle with a full whisker, or hollow square with a broken one: told apart without colour. */
  mark: "filled" | "hollow";
}

/** Of what was said to be so probable, how much came true: on the diagonal where both are the same. Its table stands beside it. */
export function ReliabilityDiagram({ curves, label }: { curves: readonly Curve[]; label: string }) {
  return (
    <svg className={css.diagram} viewBox={`0 0 ${LEFT + SIDE + 12} ${TOP + SIDE + 48}`} role="img" aria-label={label}>
      {TICKS.map((tick) => (
        <g key={tick}>
          <line className={css.grid} x1={x(tick)} x2={x(tick)} y1={y(0)} y2={y(1)} />
          <line className={css.grid} x1={x(0)} x2={x(1)} y1={y(tick)} y2={y(tick)} />
          <text className={css.tick} x={x(tick)} y={y(0) + 17} textAnchor="middle">
            {tick * 100}
          </text>
          <text className={css.tick} x={x(0) - 6} y={y(tick) + 4} textAnchor="end">
            {tick * 100}
          </text>
        </g>
      ))}
      <rect className={css.plate} x={x(0)} y={y(1)} width={SIDE} height={SIDE} />
      <line className={css.diagonal} x1={x(0)} y1={y(0)} x2={x(1)} y2={y(1)} />
      <text className={css.axis} x={x(0.5)} y={y(0) + 38} textAnchor="middle">
        said to be there, per cent
      </text>
      <text className={css.axis} x={13} y={y(0.5)} textAnchor="middle" transform={`rotate(-90 13 ${y(0.5)})`}>
        was there, per cent
      </text>
      {curves.map(({ name, bins, mark }, place) =>
        bins.map(({ bin, meanProbability, share }) => {
          const at = x(meanProbability) + (curves.length > 1 ? (place === 0 ? -3 : 3) : 0);
          return (
            <g key={`${name} ${bin}`}>
              <line className={mark === "filled" ? css.whisker : css.brokenWhisker} x1={at} x2={at} y1={y(share.lower)} y2={y(share.upper)} />
              {mark === "filled" ? <circle className={css.filled} cx={at} cy={y(share.estimate)} r="4.5" /> : <rect className={css.hollow} x={at - 4} y={y(share.estimate) - 4} width="8" height="8" />}
            </g>
          );
        }),
      )}
    </svg>
  );
}

/** What the marks mean, in words. */
export function CurveKey({ curves }: { curves: readonly Curve[] }) {
  return (
    <ul className={css.key}>
      {curves.map(({ name, mark }) => (
        <li key={name}>
          <svg className={css.swatch} aria-hidden="true" focusable="false">
            {mark === "filled" ? <circle className={css.filled} cx="8" cy="8" r="4.5" /> : <rect className={css.hollow} x="4" y="4" width="8" height="8" />}
          </svg>
          {name}
        </li>
      ))}
      <li>whiskers: 95 % Wilson interval</li>
      <li>dashed diagonal: what was said came true as often</li>
    </ul>
  );
}
