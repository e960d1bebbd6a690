import { directionFrom, JUDGED, TRADE } from "./edition-1-signs";
import type { AnswerOption, CauseCode, CircumstanceFinding, FindingBase, Provenance } from "./knowledge";

type OddsByCause = Readonly<Partial<Record<CauseCode, number>>>;

function shiftsOf(provenance: Provenance, byOption: Readonly<Record<string, OddsByCause>>): CircumstanceFinding["shifts"] {
  return Object.entries(byOption).flatMap(([option, odds]) =>
    Object.entries(odds).map(([cause, ratio = 1]) => ({ option, cause, oddsRatio: { value: ratio, provenance } })),
  );
}


/** An answer, with how often it is so among fitted units (judgement). */
const option = (value: string, label: string, share: number): AnswerOption => ({ value, label, share: { value: share, provenance: JUDGED } });

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
      option("first-start", "From the first start or the first day", 0.45),
      option("later", "Later, within 5,000 km or 100 hours", 0.35),
      option("after-5000-km", "After more than 5,000 km or 100 hours", 0.2),
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
      option("vent-sump-or-drain", "The crankcase vent, the sump or the oil drain", 0.35),
      option("filter", "The air filter or the intake", 0.15),
      option("nothing-else", "Nothing else", 0.5),
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
      option("under-pressure", "Under pressure, from a pump or can", 0.1),
      option("by-hand", "A little by hand, or by cranking the engine", 0.6),
      option("not-primed", "Not at all", 0.3),
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
      option("failed-not-cleaned", "It had failed; they were not cleaned", 0.25),
      option("failed-cleaned", "It had failed; they were cleaned", 0.25),
      option("had-not-failed", "It had not failed, or there was none", 0.5),
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
      option("intake", "Into the intake, ahead of the compressor", 0.6),
      option("open-air", "To the open air", 0.2),
      option("catch-can", "Into a catch can", 0.15),
      option("capped", "Nowhere: it is capped", 0.05),
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
      option("only-in-frost", "Only in frost", 0.04),
      option("any-weather", "In any weather", 0.96),
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
      option("high-and-used-oil", "More than 250,000 km, or it used oil before", 0.25),
      option("middle", "In between", 0.45),
      option("low", "Less than 100,000 km, and it used no oil", 0.3),
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
      option("often", "Yes, often more than 15 minutes", 0.3),
      option("seldom", "No, seldom", 0.7),
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
      option("single", "A single unit, or two side by side", 0.86),
      option("low-pressure", "The large one of a two-stage set", 0.07),
      option("high-pressure", "The small one of a two-stage set", 0.07),
    ],
    shifts: shiftsOf(TRADE, { "low-pressure": { C19: 12 } }),
    gates: [{ cause: "C19", onlyUnder: ["low-pressure"] }],
  },
];
