import { feedMargin } from "../physics/feed-margin";
import { filterMargin } from "../physics/intake-margin";
import { CUBIC_METRES_PER_SECOND_PER } from "../physics/user-units";
import type { Limit } from "./knowledge";
import { asLognormal, isAboveNothing, measuredOr, type MeasuredValue, type MeasuredValues } from "./measured-values";
import { EVEN, type PhysicalReading, readingOf } from "./physical-reading";
import { marginToLimit } from "./reading-against-limit";

/** A number against the limit that the edition states for it. */
export function limitReading({ definition, measured, spread }: MeasuredValue, limit: Limit): PhysicalReading {
  return readingOf(marginToLimit(measured, spread, limit), 1, definition.unit, [definition.quantity]);
}

const againstLimit = (value: MeasuredValue | null): PhysicalReading | null => (value?.definition.limit ? limitReading(value, value.definition.limit) : null);

/** Rated flow of the filter against the air that this engine draws; nothing can be said without its displacement. */
export function filterReading(values: MeasuredValues): PhysicalReading | null {
  const filter = values.of("filter-flow");
  const displacement = values.of("displacement");
  if (!filter || !displacement) return null;
  const engine = {
    displacementM3: asLognormal(displacement),
    speedPerS: measuredOr(values, "rated-speed", "ratedSpeed"),
    boostPa: measuredOr(values, "boost", "boost"),
  };
  return readingOf(filterMargin(asLognormal(filter), engine), CUBIC_METRES_PER_SECOND_PER["m3/h"], "m3/h", ["filter-flow", "displacement", "rated-speed", "boost"]);
}

/**
 * Oil feed: of a unit on ball bearings what its restrictor, or the bare fitting, lets through at the feed pressure; of
 * any other the pressure itself against its limit, for there the bearings are the restrictor.
 */
export function feedReading(values: MeasuredValues): PhysicalReading | null {
  const restrictor = values.of("restrictor-bore");
  if (!restrictor || values.told("bearing")?.answer !== "ball") return againstLimit(values.of("feed-pressure"));
  const bore = isAboveNothing(restrictor) ? asLognormal(restrictor) : values.reference("feedFittingBore");
  const margin = feedMargin(bore, measuredOr(values, "feed-pressure", "feedPressure"), values.reference("mostOilToBall"));
  return readingOf(margin, CUBIC_METRES_PER_SECOND_PER["l/min"], "l/min", ["restrictor-bore", "feed-pressure"]);
}

/** How often an angle that nobody measured is out of its limits (judgement). */
const OTHER_ANGLE_IS_OFF = 0.1;

/** Attitude: the outlet's turn and the shaft's tilt, either of which is enough. */
export function attitudeReading(values: MeasuredValues): PhysicalReading | null {
  const turn = againstLimit(values.of("outlet-angle"));
  const tilt = againstLimit(values.of("shaft-tilt"));
  const shown = turn && tilt ? (tilt.fallingShort > turn.fallingShort ? tilt : turn) : (turn ?? tilt);
  if (!shown) return null;
  const sound = (1 - (turn?.fallingShort ?? OTHER_ANGLE_IS_OFF)) * (1 - (tilt?.fallingShort ?? OTHER_ANGLE_IS_OFF));
  return { ...shown, fallingShort: 1 - sound, from: ["outlet-angle", "shaft-tilt"], before: EVEN };
}

/** Radial play, each place against its own limit; at the shaft's centre no lever comes in, so that it goes first. */
export function radialPlayReading(values: MeasuredValues): PhysicalReading | null {
  return againstLimit(values.of("radial-play-centre") ?? values.of("radial-play-nose"));
}
