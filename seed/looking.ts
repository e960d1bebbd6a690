import type { CauseCode, FindingCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";
import type { Complaint, Truth } from "./causal-model";
import type { Random } from "./random";

/** One answer as it is stored: an option, or a number in the edition's unit. */
export interface Seen {
  code: FindingCode;
  observer: Observer;
  answer: string | null;
  measured: number | null;
  unit: string | null;
}

/**
 * How the state of a unit becomes what somebody says of it. Signs are missed and imagined, numbers are misread, and
 * an owner does both more often than a technician, a technician more often than the bench. The figures are the demo's
 * own, invented, like those of the causal model.
 */
const MISSED: Readonly<Record<Observer, number>> = { customer: 0.11, technician: 0.04, bench: 0.02 };
const IMAGINED: Readonly<Record<Observer, number>> = { customer: 0.03, technician: 0.01, bench: 0.005 };
/** Spread of a reading, as a share of it. */
const MISREAD: Readonly<Record<Observer, number>> = { customer: 0.12, technician: 0.05, bench: 0.03 };

/** What a perfect observer would see, by finding: whether a sign is there. `likely` leaves it to chance. */
const SIGNS: Readonly<Record<FindingCode, (truth: Truth, likely: (probability: number) => boolean) => boolean>> = {
  F01: ({ wet }) => wet.has("turbine"),
  F02: ({ wet }) => wet.has("compressor"),
  F03: ({ wet }) => wet.has("upstream"),
  F04: ({ amount }) => amount !== "film",
  F05: ({ wet }) => wet.has("outside"),
  F06: ({ wet, primary }, likely) => wet.has("turbine") && likely(primary === "C21" ? 0.7 : 0.38),
  F10: ({ primary }, likely) => (primary === "C20" ? likely(0.1) : primary === "C07" ? likely(0.5) : likely(0.93)),
  F12: ({ present }, likely) => present.has("C01") || (present.has("C23") && likely(0.4)) || likely(0.03),
  F15: ({ present }, likely) => likely(present.has("C03") ? 0.62 : 0.13),
  F16: ({ present }) => present.has("C04"),
  F17: ({ present }) => present.has("C02"),
  F18: ({ present }, likely) => present.has("C03") && likely(0.45),
  F19: ({ present }, likely) => likely(present.has("C01") || present.has("C02") || present.has("C03") ? 0.9 : 0.08),
  F22: ({ present }) => present.has("C09"),
  F25: ({ present, vent }, likely) => present.has("C06") && vent !== "intake" && likely(0.72),
  F28: ({ crankcaseKPa }, likely) => likely(crankcaseKPa > 0.9 ? 0.85 : crankcaseKPa > 0.5 ? 0.4 : 0.05),
  F31: ({ present }, likely) => likely(present.has("C15") || present.has("C16") ? 0.6 : present.has("C14") ? 0.4 : 0.12),
  F32: ({ wornEngine }, likely) => likely(wornEngine ? 0.8 : 0.05),
  F34: ({ present }, likely) => likely(present.has("C11") ? 0.88 : 0.09),
  F39: ({ present }) => present.has("C12"),
  F40: ({ present }, likely) => likely(present.has("C16") || present.has("C13") || present.has("C14") ? 0.65 : 0.04),
  F43: ({ present }, likely) => likely(present.has("C14") || present.has("C16") ? 0.55 : present.has("C13") ? 0.4 : 0.05),
  F44: ({ present }, likely) => likely(present.has("C13") ? 0.88 : 0.03),
  F45: ({ present }) => present.has("C15"),
  F46: ({ present }, likely) => likely(present.has("C16") ? 0.92 : present.has("C14") ? 0.6 : 0.05),
  F47: ({ present }, likely) => likely(present.has("C14") ? 0.9 : present.has("C02") ? 0.15 : 0.06),
  F48: ({ present }, likely) => likely(present.has("C15") ? 0.96 : present.has("C17") ? 0.9 : present.has("C16") ? 0.5 : present.has("C14") ? 0.4 : 0.03),
  F49: ({ present }, likely) => present.has("C17") || (present.has("C22") && likely(0.6)),
  F50: ({ present, wet }, likely) => likely(present.has("C21") && wet.has("turbine") ? 0.85 : 0.05),
  F51: ({ present }, likely) => likely(present.has("C22") ? 0.93 : 0.015),
};

const MEASURES: Readonly<Record<FindingCode, { unit: string; step: number; read: (truth: Truth, random: Random) => number }>> = {
  F13: { unit: "mm", step: 0.5, read: ({ drainBoreMm }) => drainBoreMm },
  F14: { unit: "mm", step: 5, read: ({ fallMm }) => fallMm },
  F20: { unit: "deg", step: 1, read: ({ tiltDeg }) => tiltDeg },
  F21: { unit: "deg", step: 1, read: ({ present }, random) => (present.has("C05") && random.chance(0.4) ? random.between(16, 30) : random.between(0, 9)) },
  F26: { unit: "mm", step: 1, read: ({ present, vent }, random) => (present.has("C06") && vent !== "capped" ? random.between(7, 12) : random.between(14, 22)) },
  F29: { unit: "kPa", step: 0.05, read: ({ crankcaseKPa }) => crankcaseKPa },
  F30: { unit: "l/min", step: 5, read: ({ blowByLitresPerMinute }) => blowByLitresPerMinute },
  F35: { unit: "kPa", step: 0.1, read: ({ intakeDepressionKPa }) => intakeDepressionKPa },
  F38: { unit: "bar", step: 0.1, read: ({ feedBar }) => feedBar },
  F41: { unit: "mm", step: 0.01, read: ({ axialPlayMm }) => axialPlayMm },
  F42: { unit: "mm", step: 0.01, read: ({ radialPlayMm }) => radialPlayMm },
};

/** What is told rather than looked at. */
const CIRCUMSTANCES: Readonly<Record<FindingCode, (complaint: Complaint, random: Random) => string>> = {
  F07: ({ leaksFrom, fittedOn }) => (leaksFrom - fittedOn < 3 ? "first-start" : leaksFrom - fittedOn > 130 ? "after-5000-km" : "later"),
  F08: ({ truth: { present, vent } }, random) =>
    present.has("C06") || vent === "catch can" || present.has("C04")
      ? random.weighted({ "vent-sump-or-drain": 78, filter: 4, "nothing-else": 18 })
      : random.weighted({ "vent-sump-or-drain": 28, filter: 22, "nothing-else": 50 }),
  F09: ({ truth: { present } }, random) =>
    present.has("C14")
      ? random.weighted({ "under-pressure": 8, "by-hand": 30, "not-primed": 62 })
      : random.weighted({ "under-pressure": present.has("C20") ? 42 : 12, "by-hand": 62, "not-primed": 22 }),
  F11: ({ truth: { previousUnitFailed, present } }, random) =>
    !previousUnitFailed ? "had-not-failed" : random.chance(present.has("C13") ? 0.8 : 0.4) ? "failed-not-cleaned" : "failed-cleaned",
  F24: ({ truth: { vent } }) => ({ intake: "intake", "open air": "open-air", "catch can": "catch-can", capped: "capped" })[vent],
  F27: ({ truth: { primary } }, random) => (primary === "C07" && random.chance(0.72) ? "only-in-frost" : "any-weather"),
  F33: ({ truth: { distanceKm, wornEngine } }, random) =>
    distanceKm > 250_000 || (wornEngine && random.chance(0.6)) ? "high-and-used-oil" : distanceKm < 100_000 ? "low" : "middle",
  F36: ({ truth: { longIdling } }) => (longIdling ? "often" : "seldom"),
  F37: ({ shipment }) => ({ single: "single", low_pressure: "low-pressure", high_pressure: "high-pressure" })[shipment.kit.turbo?.staging ?? "single"],
};

/** How often the intake brings an answer, by finding. What is not named here is only ever asked for later. */
const ANSWERED_WHEN_FILING: Readonly<Record<FindingCode, number>> = {
  F07: 0.97, F08: 0.85, F09: 0.5, F11: 0.7, F24: 0.85, F27: 0.45, F33: 0.9, F36: 0.6, F37: 0.95,
  F01: 0.95, F02: 0.92, F05: 0.75, F03: 0.4, F04: 0.93, F06: 0.6, F10: 0.5, F12: 0.8, F22: 0.8, F25: 0.45, F34: 0.65, F51: 0.3, F13: 0.2, F14: 0.25,
};

const BENCH: readonly FindingCode[] = ["F41", "F42", "F45", "F46", "F47", "F48", "F49"];
/** Never asked of an owner. */
export const TECHNICIANS_ONLY: ReadonlySet<FindingCode> = new Set(["F16", "F17", "F18", "F28", "F29", "F30", "F35", "F38", "F39", "F40", "F41", "F50"]);
const BY_OWNERS: readonly FindingCode[] = ["F12", "F22", "F25", "F34", "F13", "F14", "F03", "F44", "F20", "F26", "F43"];

/** Whether anybody in the demo knows how to look for it. */
export function isLookedFor(code: FindingCode): boolean {
  return code in CIRCUMSTANCES || code in MEASURES || code in SIGNS;
}

/**
 * What one observer answers to one question.
 *
 * @returns null where they cannot tell
 */
export function lookFor(random: Random, code: FindingCode, complaint: Complaint, observer: Observer): Seen | null {
  if (random.chance(observer === "customer" ? 0.07 : 0.01)) return null;
  const { truth } = complaint;
  const told = CIRCUMSTANCES[code];
  if (told) return { code, observer, answer: told(complaint, random), measured: null, unit: null };
  const measure = MEASURES[code];
  if (measure) {
    const { unit, step, read } = measure;
    const reading = read(truth, random) * (1 + random.normal(0, MISREAD[observer]));
    const measured = Number((Math.max(0, Math.round(reading / step)) * step).toFixed(2));
    return { code, observer, answer: null, measured, unit };
  }
  const sign = SIGNS[code];
  if (!sign) throw new Error(`nobody in the demo knows how to look for ${code}`);
  const isThere = sign(truth, (probability) => random.chance(probability));
  const isSeen = isThere ? !random.chance(MISSED[observer]) : random.chance(IMAGINED[observer]);
  return { code, observer, answer: isSeen ? "present" : "absent", measured: null, unit: null };
}

/** The findings a claim is filed with. At least one place is wet: dry people do not complain. */
export function lookWhenFiling(random: Random, complaint: Complaint, observer: Observer): readonly Seen[] {
  const found = Object.entries(ANSWERED_WHEN_FILING).flatMap(([code, chance]) => {
    if (!random.chance(chance)) return [];
    const seen = lookFor(random, code, complaint, observer);
    return seen ? [seen] : [];
  });
  if (found.some(({ code, answer }) => PLACES.includes(code) && answer === "present")) return found;
  const { wet } = complaint.truth;
  const place = wet.has("turbine") ? "F01" : wet.has("compressor") ? "F02" : "F05";
  return [...found.filter(({ code }) => code !== place), { code: place, observer, answer: "present", measured: null, unit: null }];
}

const PLACES: readonly FindingCode[] = ["F01", "F02", "F05"];

export function lookAtBench(random: Random, complaint: Complaint): readonly Seen[] {
  return BENCH.flatMap((code) => lookFor(random, code, complaint, "bench") ?? []);
}

/** The check staff would ask for: what bears on the likeliest cause, or what a hunch born of the photos and the customer's words tells them. */
export function checkWorthAsking(random: Random, latestRanking: () => Ranking | null, complaint: Complaint, filedBy: Observer, asked: ReadonlySet<FindingCode>): FindingCode | null {
  const canDo = filedBy === "technician" || random.chance(0.62) ? [...BY_OWNERS, ...TECHNICIANS_ONLY] : BY_OWNERS;
  const left = canDo.filter((code) => !asked.has(code));
  const suspect = random.chance(0.74) ? complaint.truth.primary : leaderOf(latestRanking());
  const settling = left.filter((code) => suspect !== undefined && SETTLES[code]?.includes(suspect));
  return settling.length > 0 ? random.pick(settling) : left.length > 0 && random.chance(0.4) ? random.pick(left) : null;
}

function leaderOf(ranking: Ranking | null): CauseCode | undefined {
  return ranking?.outcome === "ranked" ? ranking.causes[0]?.code : undefined;
}

/** Which causes a check bears on. */
const SETTLES: Readonly<Record<FindingCode, readonly CauseCode[]>> = {
  F12: ["C01", "C23"], F14: ["C01", "C23"], F13: ["C03"], F17: ["C02"], F18: ["C03"], F16: ["C04"], F20: ["C05"], F22: ["C09", "C04"], F25: ["C06"], F26: ["C06"],
  F28: ["C06", "C07", "C08"], F29: ["C06", "C07", "C08", "C23"], F30: ["C08"], F34: ["C11"], F35: ["C11"], F38: ["C10"], F39: ["C12"], F40: ["C14", "C16"],
  F41: ["C16", "C14"], F43: ["C14", "C16"], F44: ["C13"], F50: ["C21"], F03: ["C18"],
};
