import { perObserver } from "./figures-from-ratios";
import type { AnswerOption, CauseCode, FigurePerObserver, Link, Provenance, SignFinding } from "./knowledge";

/**
 * How often each site is wet when that cause alone is there (turbine, compressor, outside). Worked out from the
 * shares among complaints: within a group, turbine / (1 - turbine) is the ratio of complaints "both" to "compressor
 * only", and compressor / (1 - compressor) that of "both" to "turbine only", with 45, 25 and 30 complaints in a
 * hundred at turbine only, compressor only and both (judgement); moved within a group by the cause's own mechanism.
 */
const WET: Readonly<Record<CauseCode, readonly [turbine: number, compressor: number, outside: number]>> = {
  C01: [0.8, 0.4, 0.05],
  C02: [0.8, 0.42, 0.05],
  C03: [0.78, 0.4, 0.05],
  C04: [0.72, 0.42, 0.05],
  C05: [0.75, 0.45, 0.05],
  C06: [0.68, 0.44, 0.05],
  C07: [0.68, 0.47, 0.05],
  C08: [0.67, 0.5, 0.05],
  C09: [0.7, 0.43, 0.05],
  C10: [0.65, 0.43, 0.08],
  C11: [0.19, 0.73, 0.02],
  C12: [0.55, 0.4, 0.03],
  C13: [0.55, 0.4, 0.03],
  C14: [0.6, 0.45, 0.03],
  C15: [0.42, 0.29, 0.02],
  C16: [0.5, 0.32, 0.02],
  C17: [0.3, 0.2, 0.5],
  C18: [0.02, 0.8, 0.02],
  C19: [0.03, 0.8, 0.02],
  C20: [0.3, 0.25, 0.05],
  C21: [0.38, 0.14, 0.5],
  C22: [0.2, 0.2, 0.6],
  C23: [0.78, 0.42, 0.05],
};

/** Of a hundred wet housings an owner sees about 85, and a technician all that the edition says. */
const OWNER_SEES = 0.85;
const BACKGROUND = { technician: 0.0002, customer: 0.0003 };

const SHARES: Provenance = { kind: "judgement", note: "worked out from the shares among complaints by place of the oil" };
const OWNER: Provenance = { kind: "judgement", note: "an owner overlooks about 15 in 100 wet housings" };
const SMALL: Provenance = { kind: "judgement", note: "small: oil without any cause named here" };

function linksOf(place: 0 | 1 | 2): Link[] {
  return Object.entries(WET).map(([cause, wet]) => ({
    cause,
    strength: perObserver({ value: wet[place] * OWNER_SEES, provenance: OWNER }, { value: wet[place], provenance: SHARES }),
  }));
}

const background: FigurePerObserver = perObserver(
  { value: BACKGROUND.customer, provenance: SMALL },
  { value: BACKGROUND.technician, provenance: SMALL },
);
const wetOrDry: readonly AnswerOption[] = [
  { value: "present", label: "Oil is there" },
  { value: "absent", label: "I looked: it is dry" },
];

/** Where the oil is, edition 1. */
export const sites1: readonly SignFinding[] = [
  {
    code: "F01",
    kind: "site",
    name: "Oil on the turbine side",
    part: "turbine",
    observers: ["customer", "technician", "bench"],
    minutes: 20,
    cost: "none",
    tools: ["lamp", "mirror"],
    cautions: ["S2", "S5"],
    question: "Is there oil inside the hot side: the turbine housing or the exhaust pipe behind it?",
    why: "Oil on the hot side most often means that it cannot drain away fast enough.",
    how: "With the engine cold and stopped, shine a lamp into the exhaust side from above. Look for wet, black oil, not dry soot.",
    options: wetOrDry,
    background,
    links: linksOf(0),
  },
  {
    code: "F02",
    kind: "site",
    name: "Oil on the compressor side",
    part: "compressor",
    observers: ["customer", "technician", "bench"],
    minutes: 15,
    cost: "none",
    tools: ["lamp"],
    cautions: ["S1", "S2", "S3"],
    question: "Is there oil inside the cold side: the compressor housing or the charge pipe after it?",
    why: "Oil on the cold side can be quite normal, or point to the air filter or the vent.",
    how: "With the engine cold and stopped, look into the pipe after the compressor with a lamp. Keep your fingers out of the housing.",
    options: wetOrDry,
    background,
    links: linksOf(1),
  },
  {
    code: "F05",
    kind: "site",
    name: "Wet on the outside",
    part: "feed",
    observers: ["customer", "technician", "bench"],
    minutes: 15,
    cost: "none",
    tools: ["lamp", "cleaner"],
    cautions: ["S2", "S4"],
    question: "Is the unit wet on the outside: at a flange, at the feed fitting or at the drain fitting?",
    why: "Oil on the outside often runs down from something above the unit.",
    how: "With the engine cold, wipe the outside dry and look where the first fresh oil shows after normal use.",
    options: wetOrDry,
    background,
    links: linksOf(2),
  },
];
