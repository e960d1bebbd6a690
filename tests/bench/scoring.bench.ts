/**
 * How long the scoring takes beside plain enumeration, in one run on one core: `npm run bench -- scoring`.
 * Medians; the stated limits stand beside them. The machine's other work shows in every figure, so read the ratios; of the
 * long run the processor's own time is told too.
 */
import { tiedCauses } from "@/lib/domain/diagnosis/cause-order";
import { planChecks } from "@/lib/domain/diagnosis/check-plan";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { enumerateCauseSets } from "@/lib/domain/diagnosis/enumerate-cause-sets";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import { explainRanking, openFindings } from "@/lib/domain/diagnosis/explanation";
import { inferCauses } from "@/lib/domain/diagnosis/infer-causes";
import { nextChecks } from "@/lib/domain/diagnosis/next-checks";
import type { NoisyOrEvidence, NoisyOrNetwork } from "@/lib/domain/diagnosis/noisy-or";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { clearReading } from "@/lib/domain/diagnosis/physical-facts";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { splitEvidence } from "@/lib/domain/diagnosis/split-evidence";
import { USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";
import { lookWhenFiling } from "@/seed/looking";
import { Random } from "@/seed/random";
import { EXPLAINED_AWAY, oddsRatioOf } from "@/tests/unit/diagnosis/explaining-away";
import { complaintsOf, look } from "./check-strategies";

function medianMs(run: () => unknown, times: number): number {
  run();
  const took = Array.from({ length: times }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return took[Math.floor(times / 2)] ?? 0;
}
const ms = (value: number) => `${value.toFixed(value < 1 ? 3 : 1)} ms`;

interface Claim {
  network: NoisyOrNetwork;
  evidence: NoisyOrEvidence[];
}

/** Fifty findings with this share of the links, so many of them seen and as many again looked at and not there. */
function aNetwork(seed: number, causes: number, seen: number, density = 0.25): Claim {
  const random = new Random(seed);
  const network = { priors: Array.from({ length: causes }, () => 0.005 + 0.1 * random.next()) };
  const evidence = Array.from({ length: Math.min(50, seen + 15) }, (_, place): NoisyOrEvidence => {
    const links = network.priors.flatMap((_prior, cause) => (random.next() < density ? [{ cause, strength: 0.95 * random.next() }] : []));
    const isSeen = place < seen;
    return { finding: { leak: 0.01 + 0.1 * random.next(), links }, weightOn: isSeen ? 1 : 0, weightOff: isSeen ? 0 : 1 };
  });
  return { network, evidence };
}

/** The posterior by enumeration of every set of causes, and how far the programme's lies from it at worst. */
function enumerated({ network, evidence }: Claim): number[] {
  const split = splitEvidence(network, evidence);
  const tied = tiedCauses(split.tying, split.present).map(({ cause }) => cause);
  const { masses } = enumerateCauseSets(split.tying, tied, split);
  return network.priors.map((_, cause) => {
    const mass = masses.get(cause) ?? { present: split.present[cause] ?? 0, absent: split.absent[cause] ?? 0 };
    return mass.present / (mass.present + mass.absent);
  });
}

function worstError(claim: Claim): number {
  const posterior = inferCauses(claim.network, claim.evidence);
  if (posterior.outcome === "contradiction") throw new Error("every network here has leaks");
  return Math.max(...enumerated(claim).map((value, cause) => Math.abs(value - (posterior.present[cause] ?? Number.NaN))));
}

let worst = 0;
console.log("posterior, 23 causes, 50 findings known or not, a quarter of the links; enumeration beside it");
for (const [seen, limit] of [[2, 1], [5, 1], [8, 1], [10, 1], [12, 15], [15, 15], [16, 15]] as const) {
  const claims = [1, 2, 3].map((seed) => aNetwork(seed, 23, seen));
  const own = Math.max(...claims.map((claim) => medianMs(() => inferCauses(claim.network, claim.evidence), 60)));
  const [first] = claims;
  if (!first) continue;
  const other = medianMs(() => enumerated(first), 1);
  worst = Math.max(worst, worstError(first));
  console.log(`  ${seen} seen: ${ms(own)} (limit ${limit}), enumeration ${ms(other)}, ${Math.round(other / own)} times as long`);
}
console.log("the same with 10 seen, by causes");
for (const causes of [10, 15, 20, 25, 30]) {
  const claim = aNetwork(4, causes, 10);
  console.log(`  ${causes} causes: ${ms(medianMs(() => inferCauses(claim.network, claim.evidence), 60))}`);
}
const everyLink = aNetwork(5, 23, 15, 1);
console.log(`  every cause linked to every finding, 15 seen: ${ms(medianMs(() => inferCauses(everyLink.network, everyLink.evidence), 5))}`);
worst = Math.max(worst, ...[11, 12, 13].map((seed) => worstError(aNetwork(seed, 16, 12))));
console.log(`worst error of a probability against enumeration: ${worst.toExponential(1)} (limit 1e-12)`);

/** A claim with so many signs seen, beginning where the oil is, and everything else open. */
function aClaim(seen: number): Observation[] {
  const signs = edition1.findings.filter(({ kind, observers }) => (kind === "site" || kind === "sign") && observers.includes("technician"));
  return signs.slice(0, seen).map(({ code }) => ({ finding: code, observer: "technician", answer: "present" }));
}
console.log("a claim under the first edition, seen by a technician, everything else open");
for (const seen of [2, 5, 8, 10, 12]) {
  const observations = aClaim(seen);
  const ranking = medianMs(() => rankCauses(observations, edition1), 20);
  const sweep = medianMs(() => nextChecks(observations, edition1, { observer: "technician", stakes: USUAL_STAKES }), 10);
  const answer = medianMs(() => {
    const ranked = rankCauses(observations, edition1);
    explainRanking(observations, edition1, NO_CONTEXT);
    openFindings(ranked, nextChecks(observations, edition1, { observer: "technician", stakes: USUAL_STAKES }));
  }, 10);
  const plan = medianMs(() => planChecks(observations, edition1, { observers: ["technician"], stakes: USUAL_STAKES, context: NO_CONTEXT, except: new Set() }), 3);
  console.log(`  ${seen} seen: ranking with its weights ${ms(ranking)}, sweep of checks ${ms(sweep)} (limit 10 at 10), whole answer ${ms(answer)} (limit 20), plan of checks ${ms(plan)}`);
}

/** Everything told, every sign there, every reading beyond its limit. */
const everything = edition1.findings
  .filter(({ observers }) => observers.length > 0)
  .map((definition): Observation => {
    const observer = definition.observers.at(-1) ?? "technician";
    const { code: finding } = definition;
    return definition.kind === "measurement" ? { finding, observer, measured: clearReading(definition, true) } : { finding, observer, answer: definition.options[0]?.value ?? "" };
  });
console.log(`  all ${everything.length} findings there: ranking ${ms(medianMs(() => rankCauses(everything, edition1), 5))}`);

const complaints = complaintsOf(0.3);
/** What a claim of the demo holds: what was told when filing, and the checks that the trade asks for. */
const CHECKS = ["F12", "F17", "F24", "F25", "F28", "F34", "F41"];
const told = complaints.map((complaint, place) => {
  const filed = lookWhenFiling(new Random(place), complaint, "customer").flatMap(({ code, answer }): Observation[] => (answer === null ? [] : [{ finding: code, observer: "customer", answer }]));
  return [...filed, ...CHECKS.flatMap((code) => look(complaint, place, code, "technician") ?? [])];
});
const middling = told.map(({ length }) => length).sort((a, b) => a - b)[Math.floor(told.length / 2)];
console.log(`10,000 claims of the demo's causal model ranked one after the other: ${complaints.length} over and over, ${middling} findings each at the median`);
const heapMiB = () => Math.round(process.memoryUsage().heapUsed / 2 ** 20);
const heaps = [heapMiB()];
const began = performance.now();
const processor = process.cpuUsage();
for (let claim = 1; claim <= 10_000; claim++) {
  rankCauses(told[claim % told.length] ?? [], edition1);
  if (claim % 2_500 === 0) heaps.push(heapMiB());
}
const { user, system } = process.cpuUsage(processor);
console.log(`  ${((performance.now() - began) / 1000).toFixed(1)} s, of which the processor ${((user + system) / 1e6).toFixed(1)} s (limit 20), heap ${heaps.join(", ")} MiB from start to end`);

console.log("rows of the table of ratios that come from explaining away");
for (const row of EXPLAINED_AWAY) {
  console.log(`  ${row.finding} ${row.state} on ${row.cause}: ${oddsRatioOf(row).toFixed(2)}, the table says ${row.tableSays}`);
}
