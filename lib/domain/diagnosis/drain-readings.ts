import { slopeOfAngle } from "../physics/attitude";
import { type DrainWidth, drainSlopeMargin, drainWidthMargin, headBudgetMargin, type OilSent } from "../physics/drain-margins";
import { type Lognormal, lognormal, type Normal, normal } from "../physics/estimate";
import type { Margin } from "../physics/margin";
import { TYPICAL_OILS } from "../physics/oil-grades";
import { headOfOilM } from "../physics/oil-head";
import { kinematicViscosityM2S } from "../physics/oil-viscosity";
import { CUBIC_METRES_PER_SECOND_PER, METRES_PER } from "../physics/user-units";
import { crankcaseReading } from "./crankcase-readings";
import type { Observer } from "./knowledge";
import { asLognormal, asNormal, type MeasuredValue, type MeasuredValues } from "./measured-values";
import { EVEN, marginIn, type PhysicalReading, readingOf } from "./physical-reading";

/** A typical oil of a grade differs from the next maker's by about a tenth (judgement). */
const WITHIN_A_GRADE = 0.1;

function hotViscosity(values: MeasuredValues): Lognormal {
  const told = values.told("oil-grade")?.answer ?? "";
  const oil = Object.entries(TYPICAL_OILS).find(([grade]) => grade === told)?.[1];
  if (!oil) return values.reference("hotOilViscosity");
  const { median: celsius, logSpread } = values.reference("oilTemperature");
  const at = (temperatureC: number) => kinematicViscosityM2S(oil.at40C, oil.at100C, temperatureC);
  const byTemperature = Math.log(at(celsius * (1 - logSpread)) / at(celsius * (1 + logSpread))) / 2;
  return lognormal(at(celsius), Math.hypot(byTemperature, WITHIN_A_GRADE));
}

/** The oil that comes down the drain: by the kind of bearing, where it is known, and by the oil's grade. */
function oilSent(values: MeasuredValues): OilSent {
  return {
    flowM3S: values.reference(values.told("bearing")?.answer === "ball" ? "oilSentBall" : "oilSentJournal"),
    kinematicViscosityM2S: hotViscosity(values),
    liquidShare: values.reference("liquidShare"),
  };
}

/** Length of the drain: as measured, else from its fall and the usual way sideways. */
function drainLength(values: MeasuredValues, fallM: number): Lognormal {
  const measured = values.of("drain-length");
  if (measured) return asLognormal(measured);
  const { median: offset, logSpread } = values.reference("drainOffset");
  const length = Math.hypot(fallM, offset);
  // Only the way sideways is uncertain: what it moves the length by.
  return lognormal(length, logSpread * (offset / length) ** 2);
}

const widthAsMeasured = (values: MeasuredValues, bore: MeasuredValue, lengthM: Lognormal): DrainWidth => ({
  boreM: asLognormal(bore),
  elbows: values.of("drain-elbows")?.measured ?? 0,
  lengthM,
});

/**
 * Width of the drain: bore and elbows as measured, at a good slope. How it runs is another fact, so that a level run is
 * not held against the bore.
 */
export function drainWidthReading(values: MeasuredValues): PhysicalReading | null {
  const bore = values.of("drain-bore");
  if (!bore) return null;
  const width = widthAsMeasured(values, bore, drainLength(values, values.reference("drainFall").median));
  const margin = drainWidthMargin(width, values.reference("drainSlope"), oilSent(values));
  return readingOf(margin, CUBIC_METRES_PER_SECOND_PER["l/min"], "l/min", ["drain-bore", "drain-elbows", "drain-length"]);
}

/** How often somebody who tells how the drain runs is right (judgement). */
const RIGHT_ABOUT_THE_RUN: Readonly<Record<Observer, number>> = { customer: 0.8, technician: 0.95, bench: 0.95 };
/** A stretch said to be level, rising or sagging: level, give or take 3 degrees. */
const LEVEL = normal(0, 0.05);

/** The lowest stretch where nobody has measured it: a share of the mean slope. */
function lowestStretch(mean: Normal, { median, logSpread }: Lognormal): Normal {
  return normal(mean.mean * median, Math.hypot(mean.spread * median, mean.mean * median * logSpread));
}

/** Slope that the fall leaves once a sound crankcase has taken its part. */
function meanSlope(fall: MeasuredValue, lengthM: Lognormal, crankcase: Lognormal): Normal {
  const driving = fall.si - headOfOilM(crankcase.median);
  return normal(driving / lengthM.median, Math.hypot(fall.siSpread, headOfOilM(crankcase.median) * crankcase.logSpread, driving * lengthM.logSpread) / lengthM.median);
}

/**
 * Run of the drain: its fall, its length and its lowest stretch, in a line of ample bore. The stretch that falls short
 * most decides. Where the lowest stretch was not measured, what was said of the run is taken as right as often as such
 * answers are, and stands in for it.
 */
export function drainRunReading(values: MeasuredValues): PhysicalReading | null {
  const fall = values.of("drain-fall");
  const angle = values.of("drain-lowest-angle");
  const marginAt = (slope: Normal, lengthM: Lognormal) => drainSlopeMargin(slope, { boreM: values.reference("drainBore"), elbows: 0, lengthM }, oilSent(values));
  const read = (margin: Margin, fallingShort: number): PhysicalReading => ({
    margin: marginIn(margin, METRES_PER.mm / 0.1),
    unit: "mm of fall per 100 mm",
    fallingShort,
    before: EVEN,
    from: ["drain-fall", "drain-lowest-angle", "drain-length"],
  });

  const stretches: Margin[] = [];
  if (angle) {
    const slope = normal(slopeOfAngle(angle.si), Math.max(1e-6, Math.cos(angle.si) * angle.siSpread));
    stretches.push(marginAt(slope, drainLength(values, values.reference("drainFall").median)));
  }
  if (fall) {
    const lengthM = drainLength(values, Math.abs(fall.si));
    const mean = meanSlope(fall, lengthM, values.reference("crankcasePressure"));
    if (angle) {
      stretches.push(marginAt(mean, lengthM));
    } else {
      const estimated = marginAt(lowestStretch(mean, values.reference("lowestShareOfSlope")), lengthM);
      const run = values.told("drain-run");
      if (!run) return read(estimated, estimated.fallingShort);
      const said = run.answer === "present" ? marginAt(LEVEL, lengthM) : marginAt(mean, lengthM);
      // A good answer about the run does not lengthen a short fall.
      const asSaid = run.answer === "present" ? Math.max(said.fallingShort, estimated.fallingShort) : said.fallingShort;
      const right = RIGHT_ABOUT_THE_RUN[run.observer];
      return read(run.answer === "present" ? said : estimated, right * asSaid + (1 - right) * estimated.fallingShort);
    }
  }
  const [first, ...others] = stretches;
  if (!first) return null;
  const worst = others.reduce((worse, one) => (one.fallingShort > worse.fallingShort ? one : worse), first);
  return read(worst, worst.fallingShort);
}

/**
 * How often drain and crankcase would each pass and the two together not, among drains and crankcases as they come:
 * simulated from bores of 15 mm, falls of 120 mm and crankcases of 0.15 kPa, within factors of 1.2, 1.5 and 2.2 (a test
 * does it again).
 */
const MARGINS_ADD_UP_BEFORE = 0.02;

/**
 * Whether margins add up: the whole head budget is short, though it would not be with a sound crankcase, and though the
 * crankcase by itself leaves half of the fall. Computed where bore, fall and crankcase pressure are all known.
 */
export function headBudgetReading(values: MeasuredValues): PhysicalReading | null {
  const bore = values.of("drain-bore");
  const fall = values.of("drain-fall");
  const pressure = values.of("crankcase-pressure");
  const crankcase = crankcaseReading(values);
  if (!bore || !fall || !pressure || !crankcase) return null;
  const width = widthAsMeasured(values, bore, drainLength(values, Math.abs(fall.si)));
  const oil = oilSent(values);
  const together = headBudgetMargin(asNormal(fall), asNormal(pressure), width, oil);
  const { median, logSpread } = values.reference("crankcasePressure");
  const drainAlone = headBudgetMargin(asNormal(fall), normal(median, median * logSpread), width, oil);
  const onlyTogether = Math.max(0, together.fallingShort - drainAlone.fallingShort) * (1 - crankcase.fallingShort);
  return {
    margin: marginIn(together, METRES_PER.mm),
    unit: "mm of oil",
    fallingShort: onlyTogether,
    before: MARGINS_ADD_UP_BEFORE,
    from: ["drain-fall", "drain-bore", "drain-elbows", "drain-length", "crankcase-pressure"],
  };
}

