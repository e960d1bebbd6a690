import { RELIABILITY_BINS } from "@/lib/domain/learning/forecast-scores";
import { FiguresTable } from "./figures-table";
import css from "./learning.module.css";
import type { Curve } from "./reliability-diagram";

const percent = (share: number) => (100 * share).toFixed(1);

/** The same as the diagram in numbers, bin by bin. */
export function ReliabilityTable({ curves, caption }: { curves: readonly Curve[]; caption: string }) {
  const places = [...new Set(curves.flatMap(({ bins }) => bins.map(({ bin }) => bin)))].sort((a, b) => a - b);
  return (
    <FiguresTable label="Reliability, bin by bin" caption={caption}>
      <thead>
        <tr>
          <th scope="col">Said, %</th>
          {curves.map(({ name }) => (
            <th scope="col" key={name} className="num">
              {name}: was there, % (interval), forecasts
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {places.map((place) => (
          <tr key={place}>
            <th scope="row" className={css.narrow}>{`${(100 * place) / RELIABILITY_BINS} to ${(100 * (place + 1)) / RELIABILITY_BINS}`}</th>
            {curves.map(({ name, bins }) => {
              const bin = bins.find((one) => one.bin === place);
              return (
                <td key={name} className="num">
                  {bin ? `${percent(bin.share.estimate)} (${percent(bin.share.lower)} to ${percent(bin.share.upper)}), ${bin.count}` : "none"}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </FiguresTable>
  );
}
