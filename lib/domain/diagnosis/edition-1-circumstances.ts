import { directionFrom, JUDGED, TRADE } from "./edition-1-signs";
import type { CauseCode, CircumstanceFinding, FindingBase, Provenance } from "./knowledge";

type OddsByCause = Readonly<Partial<Record<CauseCode, number>>>;

function shiftsOf(provenance: Provenance, byOption: Readonly<Record<string, OddsByCause>>): CircumstanceFinding["shifts"] {
  return Object.entries(byOption).flatMap(([option, odds]) =>
    Object.entries(odds).map(([cause, ratio = 1]) => ({ option, cause, oddsRatio: { value: ratio, provenance } })),
  );
}


/** A question about what was so before the leak: nobody has to look, so owner and technician count alike. */
const told = { observers: ["customer", "technician"], cost: "none", tools: [], cautions: [] } as const satisfies Partial<FindingBase>;

/** The circumstances of edition 1: they shift the base figures in log-odds. */
export const circumstances1: readonly CircumstanceFinding[] = [
  {
    ...told,
    code: "F07",
    kind: "circumstance",
    name: "When it began",
    part: "shaft",
    minutes: 1,
    question: "When did the oil first show?",
    why: "Faults of fitting show from the first warm run; wear takes time.",
    how: "Think back to the first days after the unit was fitted.",
    options: [
      { value: "first-start", label: "From the first start or the first day" },
      { value: "later", label: "Later, within 5,000 km or 100 hours" },
      { value: "after-5000-km", label: "After more than 5,000 km or 100 hours" },
    ],
    shifts: shiftsOf(JUDGED, {
      "first-start": { C01: 1.5, C02: 1.5, C03: 1.5, C05: 1.5, C07: 0.3, C08: 0.8, C15: 1.3, C20: 2 },
      "after-5000-km": { C01: 0.5, C07: 2, C08: 2, C14: 1.5, C15: 0.4, C20: 0.05 },
    }),
    gates: [],
  },
  {
    ...told,
    code: "F08",
    kind: "circumstance",
    name: "What else was changed",
    part: "vent",
    minutes: 3,
    question: "What else was changed when the unit was fitted?",
    why: "A changed drain, sump or vent is where a new leak most often begins.",
    how: "Ask whoever fitted it, or look at the invoice.",
    options: [
      { value: "vent-sump-or-drain", label: "The crankcase vent, the sump or the oil drain" },
      { value: "filter", label: "The air filter or the intake" },
      { value: "nothing-else", label: "Nothing else" },
    ],
    shifts: shiftsOf(JUDGED, {
      "vent-sump-or-drain": { C01: 2, C03: 2, C06: 3 },
      filter: { C11: 2 },
      "nothing-else": { C06: 0.6, C11: 0.8 },
    }),
    gates: [],
  },
  {
    ...told,
    code: "F09",
    kind: "circumstance",
    name: "How it was primed",
    part: "feed",
    minutes: 1,
    question: "How was oil put into the unit before the first start?",
    why: "Oil pressed in while the shaft stands still can run into the housings and clears by itself; none at all wears the bearings.",
    how: "Ask whoever fitted it.",
    options: [
      { value: "under-pressure", label: "Under pressure, from a pump or can" },
      { value: "by-hand", label: "A little by hand, or by cranking the engine" },
      { value: "not-primed", label: "Not at all" },
    ],
    shifts: shiftsOf(directionFrom("US Army TM 5-3810-303-24, oil fed under pressure with the shaft still"), {
      "under-pressure": { C20: 5 },
      "not-primed": { C14: 3, C20: 0.6 },
    }),
    gates: [],
  },
  {
    ...told,
    code: "F11",
    kind: "circumstance",
    name: "The unit before this one",
    part: "intake",
    minutes: 1,
    question: "Had the unit before this one failed, and were intercooler and exhaust cleaned?",
    why: "Oil and metal left by the old unit smoke for hours and can hit the new wheels.",
    how: "Ask whoever fitted it, or look at the invoice.",
    options: [
      { value: "failed-not-cleaned", label: "It had failed; they were not cleaned" },
      { value: "failed-cleaned", label: "It had failed; they were cleaned" },
      { value: "had-not-failed", label: "It had not failed, or there was none" },
    ],
    shifts: shiftsOf(TRADE, { "failed-not-cleaned": { C13: 3, C14: 2, C20: 3 }, "had-not-failed": { C13: 0.7 } }),
    gates: [],
  },
  {
    ...told,
    code: "F24",
    kind: "circumstance",
    name: "Where the crankcase vent leads",
    part: "vent",
    minutes: 5,
    tools: ["phone"],
    cautions: ["S2"],
    question: "Where does the crankcase vent lead?",
    why: "A vent into the intake makes an oil film normal; a narrowed or closed one pushes oil out of the unit.",
    how: "With the engine cold, follow the hose from the rocker cover or crankcase to its end, and take a photo.",
    options: [
      { value: "intake", label: "Into the intake, ahead of the compressor" },
      { value: "open-air", label: "To the open air" },
      { value: "catch-can", label: "Into a catch can" },
      { value: "capped", label: "Nowhere: it is capped" },
    ],
    shifts: shiftsOf({ kind: "judgement", note: "direction common practice, size judgement; a capped port weighs more than a vent led elsewhere" }, {
      intake: { C06: 0.4, C18: 6 },
      "open-air": { C06: 2 },
      "catch-can": { C06: 2 },
      capped: { C06: 8 },
    }),
    gates: [{ cause: "C18", onlyUnder: ["intake"] }],
  },
  {
    ...told,
    code: "F27",
    kind: "circumstance",
    name: "Weather when it leaks",
    part: "vent",
    minutes: 1,
    question: "Does it leak only in frost, and clear when it thaws?",
    why: "A vent hose can ice up and close.",
    how: "Think back to the days when it leaked and when it did not.",
    options: [
      { value: "only-in-frost", label: "Only in frost" },
      { value: "any-weather", label: "In any weather" },
    ],
    shifts: shiftsOf(directionFrom("a trade bulletin on frozen ventilation of turbocharged engines"), {
      "only-in-frost": { C07: 15, C15: 0.2 },
      "any-weather": { C07: 0.6 },
    }),
    gates: [],
  },
  {
    ...told,
    code: "F33",
    kind: "circumstance",
    name: "The engine's life so far",
    part: "crankcase",
    minutes: 2,
    question: "How far has the engine run since it was new or rebuilt, and did it use oil before?",
    why: "A worn engine blows gas into its crankcase, which holds the oil back in the unit.",
    how: "Read the distance and think of how often oil was topped up before the unit was fitted.",
    options: [
      { value: "high-and-used-oil", label: "More than 250,000 km, or it used oil before" },
      { value: "middle", label: "In between" },
      { value: "low", label: "Less than 100,000 km, and it used no oil" },
    ],
    shifts: shiftsOf(JUDGED, { "high-and-used-oil": { C08: 3, C21: 2 }, low: { C08: 0.4 } }),
    gates: [],
  },
  {
    ...told,
    code: "F36",
    kind: "circumstance",
    name: "Long idling",
    part: "intake",
    minutes: 1,
    question: "Does the engine often idle for a long time?",
    why: "At idle the intake pulls on the compressor side and draws a little oil.",
    how: "Think of how the vehicle is used.",
    options: [
      { value: "often", label: "Yes, often more than 15 minutes" },
      { value: "seldom", label: "No, seldom" },
    ],
    shifts: shiftsOf(directionFrom("US Army TM 5-3805-280-24-2, failure chart"), { often: { C11: 2, C18: 1.5, C19: 1.5 } }),
    gates: [],
  },
  {
    ...told,
    code: "F37",
    kind: "circumstance",
    name: "Single or two-stage set",
    part: "compressor",
    minutes: 5,
    question: "Is it a single unit, or which of a two-stage set?",
    why: "In a two-stage set an oil film in the large unit is normal.",
    how: "Count the units. In a two-stage set the large one takes the air from the filter first.",
    options: [
      { value: "single", label: "A single unit, or two side by side" },
      { value: "low-pressure", label: "The large one of a two-stage set" },
      { value: "high-pressure", label: "The small one of a two-stage set" },
    ],
    shifts: shiftsOf(TRADE, { "low-pressure": { C19: 12 } }),
    gates: [{ cause: "C19", onlyUnder: ["low-pressure"] }],
  },
];
