/**
 * The parts of the oil path, with the balloon number each carries on the drawing, in every list, beside
 * every finding and in the letter.
 */
export const OIL_PATH_PARTS = {
  feed: { balloon: 1, name: "Oil feed" },
  shaft: { balloon: 2, name: "Shaft and bearings" },
  drain: { balloon: 3, name: "Oil drain" },
  crankcase: { balloon: 4, name: "Crankcase" },
  vent: { balloon: 5, name: "Crankcase vent" },
  intake: { balloon: 6, name: "Filter and intake" },
  compressor: { balloon: 7, name: "Compressor side" },
  turbine: { balloon: 8, name: "Turbine side" },
} as const;
export type OilPathPart = keyof typeof OIL_PATH_PARTS;
