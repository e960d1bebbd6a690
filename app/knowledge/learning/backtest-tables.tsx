import { MEASURES, readDifference, type ViewResult } from "@/lib/domain/learning/backtest";
import { DifferenceMark } from "./difference-mark";
import { FiguresTable } from "./figures-table";
import css from "./learning.module.css";
import { direction, MEASURE_NAMES, score, signed, VIEW_NAMES } from "./words";

/** What is compared, with the interval of each difference. */
export function DifferencesTable({ result, names }: { result: ViewResult; names: readonly [before: string, after: string] }) {
  return (
    <FiguresTable label={VIEW_NAMES[result.view]} caption={`${VIEW_NAMES[result.view]}: 95 % interval of each difference by a bootstrap over verdicts`}>
      <thead>
        <tr>
          <th scope="col">Measure</th>
          <th scope="col" className="num">
            {names[0]}
          </th>
          <th scope="col" className="num">
            {names[1]}
          </th>
          <th scope="col" className="num">
            Difference
          </th>
          <th scope="col">Right is better</th>
        </tr>
      </thead>
      <tbody>
        {MEASURES.map((measure) => {
          const difference = result.differences[measure];
          return (
            <tr key={measure}>
              <th scope="row">
                {MEASURE_NAMES[measure]} <span className="small soft">({direction(measure)})</span>
              </th>
              <td className="num">{score(result.before[measure])}</td>
              <td className="num">{score(result.after[measure])}</td>
              <td className="num">
                {signed(difference.estimate)}
                <span className="small soft">
                  {" "}
                  ({signed(difference.lower)} to {signed(difference.upper)})
                </span>
              </td>
              <td>
                <span className={css.mark}>
                  <DifferenceMark measure={measure} difference={difference} />
                  <span className="small">{readDifference(measure, difference)}</span>
                </span>
              </td>
            </tr>
          );
        })}
      </tbody>
    </FiguresTable>
  );
}

type Row = readonly [name: string, of: (scores: ViewResult["before"]) => string];

const ROWS: readonly Row[] = [
  ["Reliability, how far off what was said (less is better)", ({ reliability }) => score(reliability)],
  ["Resolution, how far from the base rate it dares to go (more is better)", ({ resolution }) => score(resolution)],
  ["Uncertainty, what the base rate leaves open", ({ uncertainty }) => score(uncertainty)],
  ["Skill against how often each cause was named before", ({ skill }) => (skill === null ? "none" : score(skill))],
  ["Calibration slope (1 is right, below 1 too sure)", ({ calibration }) => calibration?.slope.toFixed(2) ?? "cannot be told"],
  ["Calibration in the large (0 is right)", ({ calibration }) => (calibration ? signed(calibration.calibrationInTheLarge) : "cannot be told")],
  ["Spiegelhalter’s z (beyond 1.96 miscalibrated)", ({ spiegelhalter }) => (spiegelhalter ? spiegelhalter.z.toFixed(2).replace("-", "−") : "cannot be told")],
  ["Expected calibration error, 10 bins", ({ expectedCalibrationError }) => score(expectedCalibrationError)],
  ["AUC of “the unit is defective”", ({ unitAuc }) => (unitAuc ? `${score(unitAuc.estimate)}${unitAuc.hasLimits ? ` (${score(unitAuc.lower)} to ${score(unitAuc.upper)})` : ", too few for limits"}` : "cannot be told")],
];

/** Where the Brier score comes from, and how well calibrated both are. */
export function CalibrationTable({ result, names }: { result: ViewResult; names: readonly [before: string, after: string] }) {
  return (
    <FiguresTable label="Calibration" caption="Where the Brier score comes from (of what is shown, whole per cent), and calibration">
      <thead>
        <tr>
          <th scope="col">Figure</th>
          <th scope="col" className="num">
            {names[0]}
          </th>
          <th scope="col" className="num">
            {names[1]}
          </th>
        </tr>
      </thead>
      <tbody>
        {ROWS.map(([name, of]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td className="num">{of(result.before)}</td>
            <td className="num">{of(result.after)}</td>
          </tr>
        ))}
      </tbody>
    </FiguresTable>
  );
}
