import { claimNetwork } from "@/lib/domain/diagnosis/claim-network";
import { logEvidenceOf } from "@/lib/domain/diagnosis/infer-causes";
import type { CauseCode, Edition } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { standingObservations } from "@/lib/domain/diagnosis/standing-observations";

export type Group = keyof typeof GROUPS;

/** The groups of causes whose shares among complaints were judged. C22 and C23 were not among them. */
export const GROUPS = {
  drain: ["C01", "C02", "C03", "C04"],
  attitude: ["C05"],
  crankcase: ["C06", "C07", "C08"],
  "level and feed": ["C09", "C10"],
  intake: ["C11"],
  "leaks, debris, wear": ["C12", "C13", "C14"],
  product: ["C15", "C16", "C17"],
  normal: ["C18", "C19", "C20"],
  elsewhere: ["C21"],
} as const satisfies Record<string, readonly CauseCode[]>;

const told = (turbine: string, compressor: string): Observation[] => [
  { finding: "F01", observer: "technician", answer: turbine },
  { finding: "F02", observer: "technician", answer: compressor },
];

/** The judged shares, by what the model is told: where the oil is and nothing else. */
export const JUDGED_SHARES: readonly { place: string; observations: Observation[]; shares: Record<Group, number> }[] = [
  {
    place: "turbine only",
    observations: told("present", "absent"),
    shares: { drain: 0.42, attitude: 0.04, crankcase: 0.21, "level and feed": 0.06, intake: 0.01, "leaks, debris, wear": 0.05, product: 0.05, normal: 0.08, elsewhere: 0.08 },
  },
  {
    place: "compressor only",
    observations: told("absent", "present"),
    shares: { drain: 0.14, attitude: 0.02, crankcase: 0.16, "level and feed": 0.04, intake: 0.2, "leaks, debris, wear": 0.05, product: 0.05, normal: 0.3, elsewhere: 0.04 },
  },
  {
    place: "both",
    observations: told("present", "present"),
    shares: { drain: 0.42, attitude: 0.05, crankcase: 0.28, "level and feed": 0.07, intake: 0.04, "leaks, debris, wear": 0.05, product: 0.03, normal: 0.04, elsewhere: 0.02 },
  },
];

/** Share of a group: P(any cause of the group | what is told), divided by the sum of that over the groups. */
export function sharesOf(observations: readonly Observation[], edition: Edition): Record<Group, number> {
  const { network, evidence } = claimNetwork(standingObservations(observations, edition).counted, edition);
  const log = logEvidenceOf(network, evidence);
  const chances = Object.entries(GROUPS).map(([group, codes]) => {
    const off = new Set(codes.map((code) => edition.causes.findIndex((cause) => cause.code === code)));
    return [group, 1 - Math.exp(logEvidenceOf(network, evidence, off) - log)] as const;
  });
  const total = chances.reduce((sum, [, chance]) => sum + chance, 0);
  return Object.fromEntries(chances.map(([group, chance]) => [group, chance / total])) as Record<Group, number>;
}

/** Chance that a fitted unit is wet somewhere, before anybody complained or looked. */
export function complaintRate(edition: Edition): number {
  const { network, evidence } = claimNetwork([], edition);
  return Math.exp(logEvidenceOf(network, evidence));
}
