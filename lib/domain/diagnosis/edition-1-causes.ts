import type { Attribution } from "./attributions";
import { BASE_FIGURES } from "./edition-1-base-figures";
import type { Cause } from "./knowledge";
import type { OilPathPart } from "./oil-path";

interface CauseRow {
  name: string;
  plainName: string;
  attribution: Attribution;
  originIsOpen?: true;
  part: OilPathPart;
  advice: string;
}

const ROWS: Readonly<Record<keyof typeof BASE_FIGURES, CauseRow>> = {
  C01: {
    name: "Drain runs level, rises or sags",
    plainName: "the oil drain runs level, uphill or with a sag",
    attribution: "fit",
    originIsOpen: true,
    part: "drain",
    advice: "Re-route the drain so that it falls all the way, as steeply as there is room for. The oil leaves by its own weight; nothing pumps it.",
  },
  C02: {
    name: "Drain kinked, crushed or blocked",
    plainName: "the oil drain is kinked, crushed or blocked",
    attribution: "fit",
    originIsOpen: true,
    part: "drain",
    advice: "Take the drain off, look through it from end to end, and replace it if it is kinked, crushed, coked or swollen. Fit a new gasket without liquid sealant.",
  },
  C03: {
    name: "Drain bore or gasket hole too small, or too many tight fittings",
    plainName: "the oil drain is too narrow, or its gasket hole or fittings are",
    attribution: "fit",
    originIsOpen: true,
    part: "drain",
    advice: "Use a drain as wide inside as the hole in the housing, or wider. The hole of the gasket must match. Wide bends are better than tight elbows.",
  },
  C04: {
    name: "Drain enters below the oil level or in the crankshaft's sling",
    plainName: "the oil drain enters the engine below the oil level or where the crankshaft throws oil",
    attribution: "fit",
    originIsOpen: true,
    part: "drain",
    advice: "Move the drain's entry up: above the oil level of the running engine, and clear of the crankshaft.",
  },
  C05: {
    name: "Bearing housing rotated or tilted too far",
    plainName: "the middle housing of the unit is turned or tilted too far",
    attribution: "fit",
    part: "shaft",
    advice: "Turn the middle housing until its oil outlet points straight down and the shaft lies level. Keep to the limits in the unit's data.",
  },
  C06: {
    name: "Crankcase vent restricted by the conversion",
    plainName: "the crankcase vent was narrowed or closed when the kit was fitted",
    attribution: "fit",
    originIsOpen: true,
    part: "vent",
    advice: "Give the crankcase a free vent of full bore, with no element in it and no long or sagging hose. Keep to the engine maker's data and local law.",
  },
  C07: {
    name: "Crankcase vent iced or clogged in service",
    plainName: "the crankcase vent has iced up or clogged",
    attribution: "engine",
    part: "vent",
    advice: "Clean or replace the vent hose and valve; where it freezes, have it insulated or heated as the engine maker provides.",
  },
  C08: {
    name: "Excessive blow-by from a worn engine",
    plainName: "the engine is worn and blows gas into its crankcase",
    attribution: "engine",
    part: "crankcase",
    advice: "Have compression or leak-down and blow-by measured. A new unit leaks again until the engine is put right.",
  },
  C09: {
    name: "Oil level too high",
    plainName: "there is too much oil in the engine",
    attribution: "fit",
    part: "crankcase",
    advice: "Bring the oil level down to between the marks, on level ground.",
  },
  C10: {
    name: "Feed pressure or flow too high",
    plainName: "too much oil is fed to the unit",
    attribution: "fit",
    originIsOpen: true,
    part: "feed",
    advice: "Have the feed pressure measured and fit the restrictor that the unit's data ask for.",
  },
  C11: {
    name: "Intake restricted: filter too small or dirty, duct collapsed",
    plainName: "the air filter is too small or dirty, or an intake duct is sucked flat",
    attribution: "fit",
    originIsOpen: true,
    part: "intake",
    advice: "Fit a clean filter that is big enough for the air a turbocharged engine draws, and ducts that do not collapse.",
  },
  C12: {
    name: "Boost or exhaust leak upsets the pressure at a seal",
    plainName: "a boost or exhaust leak upsets the pressure at a seal",
    attribution: "fit",
    part: "turbine",
    advice: "Have the boost and exhaust joints tested and put the leak right.",
  },
  C13: {
    name: "A foreign object or debris has hit a wheel",
    plainName: "something has been drawn in and has hit a wheel",
    attribution: "fit",
    part: "compressor",
    advice: "Do not run it. Find where the object came from and clean intake, intercooler and exhaust before another unit is fitted.",
  },
  C14: {
    name: "Oil starvation or dirty oil at first start has worn the bearings",
    plainName: "the bearings ran short of oil, or on dirty oil, at the first start",
    attribution: "fit",
    part: "shaft",
    advice: "Do not run it. Flush the feed, change oil and filter, and prime the unit with clean oil before the first start of the next one.",
  },
  C15: {
    name: "Seal ring off its groove, broken or misassembled",
    plainName: "a seal ring inside the unit is out of place or broken",
    attribution: "unit",
    part: "shaft",
    advice: "Leave the engine off and the unit closed. Before another unit is fitted, see that the drain is clear and falls all the way, and that the crankcase breathes freely.",
  },
  C16: {
    name: "Thrust bearing failed or misassembled",
    plainName: "the unit's thrust bearing has failed",
    attribution: "unit",
    part: "shaft",
    advice: "Do not run it. Before another unit is fitted, look for bits of metal in intake and intercooler, and see that the oil feed is clean.",
  },
  C17: {
    name: "Housing porous or cracked, wrong part or core plug leak",
    plainName: "a housing of the unit leaks, or a part in it is the wrong one",
    attribution: "unit",
    part: "turbine",
    advice: "Do not seal or weld the housing. Keep the unit as it is, and clean spilt oil off hot parts with the engine cold.",
  },
  C18: {
    name: "Normal: oil film because the vent leads into the intake",
    plainName: "an oil film is normal where the crankcase vent leads into the intake",
    attribution: "normal",
    part: "compressor",
    advice: "A thin film is no fault. Wipe it off and look again after some days; it should stay a film.",
  },
  C19: {
    name: "Normal: film in the large unit of a two-stage set",
    plainName: "an oil film is normal in the large unit of a two-stage set",
    attribution: "normal",
    part: "compressor",
    advice: "A thin film is no fault there: below boost the large unit is pulled through by the small one.",
  },
  C20: {
    name: "Normal for now: assembly or priming oil, or oil left by the previous unit",
    plainName: "it is oil from assembly, from priming or from the previous unit, and will clear",
    attribution: "normal",
    part: "turbine",
    advice: "With the engine cold, wipe away what you can reach. Clean intercooler and pipes. See whether the oil comes back in normal use.",
  },
  C21: {
    name: "Oil comes from elsewhere on the vehicle",
    plainName: "the oil comes from another part of the vehicle",
    attribution: "elsewhere",
    part: "turbine",
    advice: "Wipe everything dry. Look above and ahead of the unit: at the feed fitting, the rocker cover and the exhaust ports.",
  },
  C22: {
    name: "Damaged in carriage",
    plainName: "the unit was damaged on its way to you",
    attribution: "transit",
    part: "turbine",
    advice: "Keep the crate and the photos of it: they are what the carrier is held to.",
  },
  C23: {
    name: "Margins add up: drain and crankcase each tolerable, together not",
    plainName: "drain and crankcase would each pass alone, but not together",
    attribution: "fit",
    part: "drain",
    advice: "Improve either part: a steeper or wider drain, or a freer crankcase vent. One of the two is enough.",
  },
};

const FITTED = "fitted to the shares among complaints and 25 complaints per 1,000 fitted units";
const SET = "no share of its own among complaints is known";

function causeOf(code: keyof typeof BASE_FIGURES): Cause {
  const note = code === "C22" || code === "C23" ? SET : FITTED;
  return {
    code,
    ...ROWS[code],
    originIsOpen: ROWS[code].originIsOpen ?? false,
    base: { value: BASE_FIGURES[code], provenance: { kind: "judgement", note } },
  };
}

/** The causes of edition 1. Object.keys forgets that its strings are the keys of the rows. */
export const causes1: readonly Cause[] = (Object.keys(ROWS) as (keyof typeof ROWS)[]).map(causeOf);
