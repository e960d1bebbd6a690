import { fittedShare, shareClaimedBy, type TimeToClaim } from "@/lib/domain/reporting/time-to-claim";
import { NumberAxis, ValueAxis } from "../../_charts/axes";
import { Chart } from "../../_charts/chart";
import styles from "../../_charts/charts.module.css";
import { LineWithBand } from "../../_charts/line-with-band";
import { drawn, scaleTo } from "../../_charts/scale";
import { Unspoken } from "../../_charts/unspoken";

const WIDTH = 940;
const HEIGHT = 340;
const LEFT = 48;
const RIGHT = 810;
const TOP = 40;
const BOTTOM = 290;

/** Share of units with a claim by month in service, stepping with the claims, and the fitted distribution over it. */
export function LifeChart({ life, title, hrefOf }: { life: TimeToClaim; title: string; hrefOf: (monthInService: number) => string }) {
  const months = Array.from({ length: Math.floor(life.longest) + 1 }, (_, month) => month);
  const shares = months.flatMap((month) => {
    const share = month === 0 ? { estimate: 0, lower: 0, upper: 0 } : shareClaimedBy(life, month);
    return share ? [{ month, ...share }] : [];
  });
  const last = shares.at(-1);
  if (!last || last.month === 0) return null;
  const fitted = months.flatMap((month) => {
    const share = fittedShare(life.fit, month);
    return share === null ? [] : [{ month, share }];
  });
  const astray = shares.filter(({ month, lower, upper }) => fitted.some((of) => of.month === month && (of.share < lower || of.share > upper)));
  const across = scaleTo(last.month, LEFT, RIGHT);
  const up = scaleTo(Math.max(...shares.map(({ upper }) => upper), ...fitted.map(({ share }) => share), 0.0001) * 100, BOTTOM, TOP);
  const claims = new Map(life.curve.steps.map(({ time, failures }) => [Math.floor(time), failures]));
  const column = across.at(1) - across.at(0);
  return (
    <Chart
      title={title}
      label="Share of units with a claim by month in service; each month leads to its claims. The same figures stand in the table below."
      width={WIDTH}
      height={HEIGHT}
      note={<p>Line: share of the units with a claim, each unit counted for as long as it has been in service. Hatched: its 90 % band. Dashed: the fitted Weibull distribution.{astray.length > shares.length / 2 ? " It leaves the band for the most part: most units never claim, so read its shape as a summary and go by the line." : ""}</p>}
    >
      <ValueAxis scale={up} from={LEFT} to={RIGHT} unit="% of units with a claim" />
      <NumberAxis scale={across} y={BOTTOM} unit="months in service" />
      <LineWithBand points={shares.map(({ month, estimate, lower, upper }) => ({ x: across.at(month), y: up.at(estimate * 100), lower: up.at(lower * 100), upper: up.at(upper * 100) }))} />
      <Unspoken>
        {fitted.length > 0 ? <path className={styles.fitted} d={`M${fitted.map(({ month, share }) => `${drawn(across.at(month))} ${drawn(up.at(share * 100))}`).join("L")}`} /> : null}
        <text className={styles.said} x={drawn(across.at(last.month) + 8)} y={drawn(up.at(last.estimate * 100) + 4)}>
          {(last.estimate * 100).toFixed(1)} % by month {last.month}
        </text>
      </Unspoken>
      {months.slice(0, -1).map((month) => (
        <a key={month} className={styles.way} href={hrefOf(month)} aria-label={`Month ${month} in service: ${claims.get(month) ?? 0} claims`}>
          <title>{`Month ${month} in service: ${claims.get(month) ?? 0} claims`}</title>
          <rect className={styles.target} x={drawn(across.at(month))} y={TOP} width={drawn(column)} height={BOTTOM - TOP} />
        </a>
      ))}
    </Chart>
  );
}
