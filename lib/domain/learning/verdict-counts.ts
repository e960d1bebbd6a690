import { checkObservation } from "../diagnosis/check-observation";
import type { CauseCode, Edition, FindingCode, FindingDefinition, MeasuredFinding, Observer, SignFinding } from "../diagnosis/knowledge";
import type { Observation } from "../diagnosis/observation";
import { standingObservations } from "../diagnosis/standing-observations";
import type { LinkRow } from "../statistics/noisy-or-links";
import { CONFIRMATION_WEIGHTS, type TrainingExample } from "./training-example";

/** A contributing cause was there, but might not have leaked by itself, which is what a base figure is about (judgement). */
const CONTRIBUTING_COUNTS = 0.5;
/** A check is asked because its cause is suspected, and the verdict then rests on it: its answer counts half (judgement). */
const FOUND_LATER_COUNTS = 0.5;

/** Verdicts of one group: of all, of a kit, or of a kit on one vehicle. Arrays go by the edition's causes. */
export interface GroupCounts {
  verdicts: number;
  /** Sum of their weights. */
  weight: number;
  /** Verdicts that name the cause, a contributing one by half. */
  named: Float64Array;
  /** Of those, the sum of the weights. */
  namedWeight: Float64Array;
  /** Over the verdicts that do not name the cause: how often circumstances multiply its odds, summed, and how many. */
  shifts: Float64Array;
  others: Float64Array;
}

/** What one observer saw of one finding, by the causes that were there. */
export interface LookCounts {
  /** Keyed by the places of the finding's links whose causes were there: `0,2`. */
  rows: Map<string, LinkRow>;
  /** Looks unweighted, per link while its cause was there, and in how many of them it was seen. */
  looks: { of: number; hits: number }[];
  /** The same with none of its causes there. */
  alone: { of: number; hits: number };
}

/** All that learning needs to keep of the verdicts: it grows with kits and findings, not with verdicts. */
export interface VerdictCounts {
  edition: Edition;
  all: GroupCounts;
  byKit: Map<string, GroupCounts>;
  /** Keyed by kit, then vehicle. */
  byCell: Map<string, Map<string, GroupCounts>>;
  /** Keyed by `F12 customer`. */
  looks: Map<string, LookCounts>;
  lastConfirmedAt: Date | null;
}

function emptyGroup(causes: number): GroupCounts {
  const zeros = () => new Float64Array(causes);
  return { verdicts: 0, weight: 0, named: zeros(), namedWeight: zeros(), shifts: zeros(), others: zeros() };
}

export function startCounts(edition: Edition): VerdictCounts {
  return { edition, all: emptyGroup(edition.causes.length), byKit: new Map(), byCell: new Map(), looks: new Map(), lastConfirmedAt: null };
}

const lookKey = (finding: FindingCode, observer: Observer) => `${finding} ${observer}`;

export function looksAt(counts: VerdictCounts, finding: FindingCode, observer: Observer): LookCounts | undefined {
  return counts.looks.get(lookKey(finding, observer));
}

function kept<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  const before = map.get(key);
  if (before !== undefined) return before;
  const made = make();
  map.set(key, made);
  return made;
}

/** How often the circumstances told multiply the odds of a cause; a closed gate makes it impossible. */
function shiftsOf(told: ReadonlyMap<FindingCode, string>, edition: Edition): number[] {
  const shifts = edition.causes.map(() => 1);
  const placeOf = new Map(edition.causes.map(({ code }, place) => [code, place]));
  for (const definition of edition.findings) {
    const answer = definition.kind === "circumstance" ? told.get(definition.code) : undefined;
    if (definition.kind !== "circumstance" || answer === undefined) continue;
    const multiply = (cause: CauseCode, by: number) => {
      const place = placeOf.get(cause);
      if (place !== undefined) shifts[place] = (shifts[place] ?? 1) * by;
    };
    for (const { option, cause, oddsRatio } of definition.shifts) if (option === answer) multiply(cause, oddsRatio.value);
    for (const { cause, onlyUnder } of definition.gates) if (!onlyUnder.includes(answer)) multiply(cause, 0);
  }
  return shifts;
}

/** How often each cause is named among the verdicts: the base rate that skill is measured against. */
export function sharesNamed({ all, edition }: VerdictCounts): Map<CauseCode, number> {
  return new Map(edition.causes.map(({ code }, place) => [code, all.verdicts > 0 ? (all.named[place] ?? 0) / all.verdicts : 0]));
}

export function sitesOf(findings: readonly FindingDefinition[]): SignFinding[] {
  return findings.filter((definition): definition is SignFinding => definition.kind === "site");
}

/** Chance of a finding with these causes there. */
export function chanceWith(definition: SignFinding | MeasuredFinding, observer: Observer, isThere: (cause: CauseCode) => boolean): number {
  const absent = definition.links.reduce((none, { cause, strength }) => (isThere(cause) ? none * (1 - strength[observer].value) : none), 1 - definition.background[observer].value);
  return 1 - absent;
}

/** Takes one look into the counts: seen by `present`, of 1, with this weight. */
function countLook(counts: VerdictCounts, definition: SignFinding | MeasuredFinding, observer: Observer, there: ReadonlySet<CauseCode>, present: number, weight: number): void {
  const looks = kept(counts.looks, lookKey(definition.code, observer), () => ({ rows: new Map(), looks: definition.links.map(() => ({ of: 0, hits: 0 })), alone: { of: 0, hits: 0 } }));
  const causes = definition.links.flatMap(({ cause }, place) => (there.has(cause) ? [place] : []));
  const row = kept(looks.rows, causes.join(), () => ({ causes, present: 0, absent: 0 }));
  row.present += weight * present;
  row.absent += weight * (1 - present);
  for (const tally of causes.length === 0 ? [looks.alone] : causes.flatMap((place) => looks.looks[place] ?? [])) {
    tally.of += 1;
    tally.hits += present;
  }
}

/**
 * Takes one confirmed verdict into the counts. Of several looks of one observer at one finding the last counts. What the
 * edition no longer knows is passed over.
 *
 * A reading is no yes or no: it counts as the chance that the quantity is beyond its limit, given the reading and the
 * causes that were there (one step of the EM algorithm; Dempster, Laird and Rubin 1977, from memory).
 */
export function countVerdict(counts: VerdictCounts, example: TrainingExample): void {
  const { edition } = counts;
  const primary = edition.causes.findIndex(({ code }) => code === example.primary);
  if (primary < 0) return;
  const weight = CONFIRMATION_WEIGHTS[example.confirmation];
  const there = new Set([example.primary, ...example.contributing]);
  if (!counts.lastConfirmedAt || example.confirmedAt > counts.lastConfirmedAt) counts.lastConfirmedAt = example.confirmedAt;

  const looks = new Map<string, { observation: Observation; isLater: boolean }>();
  const keep = (isLater: boolean) => (observation: Observation) => {
    if (checkObservation(observation, edition).ok) looks.set(lookKey(observation.finding, observation.observer), { observation, isLater });
  };
  example.firstContact.forEach(keep(false));
  example.later.forEach(keep(true));

  const told = new Map([...looks.values()].flatMap(({ observation }) => ("answer" in observation ? [[observation.finding, observation.answer] as const] : [])));
  const shifts = shiftsOf(told, edition);
  const groups = [counts.all];
  if (example.kit !== null) {
    groups.push(kept(counts.byKit, example.kit, () => emptyGroup(shifts.length)));
    if (example.vehicle !== null) groups.push(kept(kept(counts.byCell, example.kit, () => new Map()), example.vehicle, () => emptyGroup(shifts.length)));
  }
  for (const group of groups) {
    group.verdicts += 1;
    group.weight += weight;
    edition.causes.forEach(({ code }, place) => {
      const named = place === primary ? 1 : there.has(code) ? CONTRIBUTING_COUNTS : 0;
      group.named[place] = (group.named[place] ?? 0) + named;
      group.namedWeight[place] = (group.namedWeight[place] ?? 0) + named * weight;
      if (there.has(code)) return;
      group.shifts[place] = (group.shifts[place] ?? 0) + (shifts[place] ?? 1);
      group.others[place] = (group.others[place] ?? 0) + 1;
    });
  }

  const definitions = new Map(edition.findings.map((definition) => [definition.code, definition]));
  const weightOf = (isLater: boolean) => weight * (isLater ? FOUND_LATER_COUNTS : 1);
  for (const { observation, isLater } of looks.values()) {
    const definition = definitions.get(observation.finding);
    if (definition?.kind !== "site" && definition?.kind !== "sign") continue;
    countLook(counts, definition, observation.observer, there, "answer" in observation && observation.answer === "present" ? 1 : 0, weightOf(isLater));
  }
  for (const standing of standingObservations([...looks.values()].map(({ observation }) => observation), edition).counted) {
    if (standing.kind !== "evidence" || standing.definition.kind !== "measurement" || standing.weightOn === standing.weightOff) continue;
    const { definition, observer, weightOn, weightOff } = standing;
    const chance = chanceWith(definition, observer, (cause) => there.has(cause));
    const on = weightOn * chance;
    countLook(counts, definition, observer, there, on / (on + weightOff * (1 - chance)), weightOf(looks.get(lookKey(definition.code, observer))?.isLater ?? true));
  }
}
