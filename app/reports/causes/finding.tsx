import { modelName } from "@/lib/domain/reporting/catalogue";
import type { Row } from "@/lib/domain/reporting/causes-by-kit-and-vehicle";
import { looksHigh } from "@/lib/domain/reporting/comparison";
import { CONFIDENCE } from "@/lib/domain/reporting/figures";
import { type Period, periodInWords } from "@/lib/domain/reporting/month";
import type { CausesReport } from "@/lib/operations/load-causes-report";
import { cellAddress, claimsAddress, type Parameters } from "../addresses";
import { claimsInWords, count, figure, limits } from "../figures-in-words";
import { fitterName } from "../narrowing-in-words";
import styles from "../reports.module.css";

/** A row by name: "KH-210 rev C". */
export function rowName({ kit, revision }: Pick<Row, "kit" | "revision">): string {
  return revision ? `${kit.code} rev ${revision.revision}` : kit.code;
}

/** What the report has found, as its heading. */
export function headline({ table, outstanding, fitter, today }: CausesReport, filter: Period & { kit?: string | undefined }): string {
  const { shipped, claims } = table.total;
  if (filter.from > today.slice(0, 7)) return `${periodInWords(filter)} lies ahead: nothing has been shipped yet`.replace(/^./, (first) => first.toUpperCase());
  if (fitter) return claims === 0 ? `No claim about what ${fitterName(fitter)} fitted` : `${claimsInWords(claims)} about what ${fitterName(fitter)} fitted; of how many is not known`;
  if (shipped === 0 && claims > 0) return `${claimsInWords(claims)}, and no shipment to set against ${claims === 1 ? "it" : "them"}`;
  if (shipped === 0) return `${filter.kit ? `${filter.kit}: nothing` : "Nothing"} was shipped ${periodInWords(filter)}`;
  if (claims === 0) return "No claim so far about what was shipped in this period";
  if (!outstanding) return "Nothing stands out in this period";
  const { row, vehicle } = outstanding.cell;
  return `One kit stands out: ${rowName(row)}${vehicle ? ` on the ${modelName(vehicle)}` : ""}`;
}

/** The heading's reasons, and what may be wrong with it. */
export function Finding({ report: { compared, outstanding, causes }, filter }: { report: CausesReport; filter: Parameters }) {
  if (compared.length === 0) return null;
  const byChance = Math.max(1, Math.round((compared.length * (1 - CONFIDENCE)) / 2));
  const caveat = `${compared.length === 1 ? "One pair of kit and vehicle has" : `${compared.length} pairs of kit and vehicle have`} enough claims to be compared; about ${byChance} of so many would look high by chance alone.`;
  if (!outstanding)
    return (
      <p>
        No kit on any vehicle has clearly more claims than what else was shipped in the same months would give. <span className="soft">{caveat}</span>
      </p>
    );
  const { cell, leading } = outstanding;
  const others = compared.filter(({ comparison }) => looksHigh(comparison)).length - 1;
  const selection = { ...filter, kit: cell.row.kit.code, revision: cell.row.revision?.revision, vehicle: cell.vehicle?.id, by: undefined };
  return (
    <div className={`sheet ${styles.finding}`}>
      <div>
        <p>
          <b>
            Its claims look high: {figure(cell.comparison.ratio.estimate)} times what the rest of the shipments of the same months would give (90 % interval {limits(cell.comparison.ratio)}).
          </b>{" "}
          {claimsInWords(cell.figures.claims)} on {count(cell.figures.shipped)} shipped, where {figure(cell.comparison.expected)} would be expected.
          {leading ? ` Named most often as the cause: ${causes.find(({ code }) => code === leading.cause)?.name ?? leading.cause}, ${leading.claims} of ${cell.figures.decided} decided.` : ""}
        </p>
        <p className="soft">
          {others > 0 ? `${others === 1 ? "One more looks" : `${others} more look`} high, less strongly. ` : ""}
          {caveat}
        </p>
      </div>
      <div className="acts no-print">
        <a className="button tight" href={cellAddress({ ...selection, cause: undefined })}>
          See its causes
        </a>
        <a className="button tight plain" href={claimsAddress(selection)}>
          See the {claimsInWords(cell.figures.claims)}
        </a>
      </div>
    </div>
  );
}
