import type { Provenance, Reference, ReferenceName } from "./knowledge";

const judged = (note: string): Provenance => ({ kind: "judgement", note });

/**
 * What physics assumes where nobody has measured, edition 1. No published figure for the oil that a unit of a given frame
 * sends was found, nor for the gas in it: these are judgement, and their spreads are wide.
 */
export const references1: Readonly<Record<ReferenceName, Reference>> = {
  oilSentJournal: { name: "Oil a unit on journal bearings sends down its drain", value: 2.5, spread: 0.5, unit: "l/min", provenance: judged("from memory, 1 to 4 l/min for passenger-car sizes and more for large ones; no figures by frame size were found") },
  oilSentBall: { name: "Oil a unit on ball bearings sends down its drain", value: 1.2, spread: 0.35, unit: "l/min", provenance: judged("published restrictors of 1.0 to 1.5 mm at 3 bar pass 0.84 to 1.9 l/min") },
  mostOilToBall: { name: "Most oil that a unit on ball bearings should be sent", value: 2.3, spread: 0.2, unit: "l/min", provenance: judged("the widest published restrictor, 1.5 mm, passes 1.9 l/min at 45 psi") },
  oilTemperature: { name: "Oil in the drain of a warm engine", value: 110, spread: 0.1, unit: "degC", provenance: judged("from memory, 20 to 40 K above the gallery") },
  hotOilViscosity: { name: "Oil in the drain, grade not known", value: 11, spread: 0.3, unit: "mm2/s", provenance: judged("15W-40 and 5W-30 at 110 degC and 20 K to either side") },
  liquidShare: { name: "Liquid in the foam that leaves the bearings", value: 0.6, spread: 0.2, unit: "", provenance: judged("trade articles compare it to whipped cream; none measures it") },
  drainBore: { name: "Ample drain, for judging how it runs", value: 19, spread: 0.05, unit: "mm", provenance: judged("the larger of the bores that a turbocharger maker's page asks for") },
  drainSlope: { name: "Good slope, fall over length, for judging how wide it is", value: 0.35, spread: 0.25, unit: "", provenance: judged("20 degrees below the horizontal, 15 to 27") },
  drainFall: { name: "Fall of a drain, not measured", value: 120, spread: 0.4, unit: "mm", provenance: judged("from outlet to crankcase, 80 to 180 mm") },
  drainOffset: { name: "Way sideways of a drain, length not measured", value: 200, spread: 0.4, unit: "mm", provenance: judged("from outlet to entry, 130 to 300 mm") },
  lowestShareOfSlope: { name: "Lowest stretch of a drain as a share of its mean slope", value: 0.75, spread: 0.3, unit: "", provenance: judged("hoses sag and turn; nobody has looked") },
  crankcasePressure: { name: "Crankcase of a sound engine", value: 0.15, spread: 0.5, unit: "kPa", provenance: judged("a fifth of a usual fall as a column of oil at most") },
  blowBy: { name: "Blow-by of a sound engine at load", value: 60, spread: 0.4, unit: "l/min", provenance: judged("published: 0.45 l/min per kW in good order, 106 l/min at most") },
  ventLength: { name: "Length of a vent hose, not measured", value: 1.2, spread: 0.4, unit: "m", provenance: judged("from rocker cover to intake or catch can") },
  ratedSpeed: { name: "Rated speed of an engine, not told", value: 4200, spread: 0.2, unit: "rpm", provenance: judged("light diesel engines; large ones turn slower, petrol engines faster") },
  boost: { name: "Boost of a converted engine, not told", value: 1.2, spread: 0.25, unit: "bar", provenance: judged("0.9 to 1.5 bar") },
  feedPressure: { name: "Feed pressure hot and at speed, not measured", value: 4, spread: 0.2, unit: "bar", provenance: judged("from memory, passenger-car engines") },
  feedFittingBore: { name: "Feed fitting without a restrictor", value: 3.2, spread: 0.2, unit: "mm", provenance: judged("published: feed line of 3.2 mm and more") },
};
