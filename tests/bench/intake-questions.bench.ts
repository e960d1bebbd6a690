/**
 * What weighing the questions of the intake saves, and what it loses: `npm run bench -- intake`. Owners of the demo's
 * causal model are asked as the intake asks, and beside it everything that an owner can be asked there.
 */
import { beliefAfter } from "@/lib/domain/diagnosis/belief";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import { USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";
import { type IntakeAnswers, type OilPlace, type Screen, SCREENS } from "@/lib/domain/intake/answers";
import { type Basis, firstOpenScreen, screensToAsk, withTurn } from "@/lib/domain/intake/intake-path";
import { applies, FINDINGS_ASKED, type IntakeState, type KnownPurchase, NOTHING_KNOWN } from "@/lib/domain/intake/questions";
import { DONT_KNOW } from "@/lib/domain/intake/screens";
import { findingsFromAnswers } from "@/lib/domain/intake/findings-from-answers";
import type { Complaint } from "@/seed/causal-model";
import { complaintsOf, look } from "./check-strategies";

const BASIS: Basis = { edition: edition1, stakes: USUAL_STAKES };
const complaints = complaintsOf(Number(process.argv[3] ?? 0.15));

function answersTo(screen: Screen, complaint: Complaint, place: number): Record<string, string> {
  const { wet } = complaint.truth;
  if (screen === "who") return { who: "owner" };
  if (screen === "purchase") return { by: "order" };
  if (screen === "oil") {
    const both = wet.has("turbine") && wet.has("compressor");
    const at: OilPlace = both ? "both" : wet.has("turbine") ? "turbine" : wet.has("outside") ? "outside" : "compressor";
    return { place: at, elsewhere: "dry" };
  }
  const codes = FINDINGS_ASKED[screen] ?? [];
  return Object.fromEntries(codes.map((code) => {
    const seen = look(complaint, place, code, "customer");
    return [code, seen && "answer" in seen ? seen.answer : DONT_KNOW];
  }));
}

function purchaseOf({ shipment: { kit, vehicle } }: Complaint): KnownPurchase {
  return { ...NOTHING_KNOWN, kitId: kit.code, vehicleId: vehicle.key, fuel: vehicle.fuel, staging: kit.turbo?.staging ?? null, matchingShipments: 1 };
}

function leaderOf(state: IntakeState): string | undefined {
  const known = findingsFromAnswers(state, edition1).flatMap(({ code, answer }) => (answer === null || answer === DONT_KNOW ? [] : [{ finding: code, observer: "customer" as const, answer }]));
  return beliefAfter(known, edition1, NO_CONTEXT)?.leader?.cause;
}

const counts: number[] = [];
const all: number[] = [];
let [sameLeader, right, rightOfAll] = [0, 0, 0];
complaints.forEach((complaint, place) => {
  let state: IntakeState = { answers: {}, purchase: NOTHING_KNOWN };
  for (let screen = firstOpenScreen(state, BASIS); screen; screen = firstOpenScreen(state, BASIS)) {
    const answers: IntakeAnswers = { ...state.answers, [screen]: withTurn(screen, answersTo(screen, complaint, place), state.answers) };
    state = { answers, purchase: answers.purchase ? purchaseOf(complaint) : NOTHING_KNOWN };
  }
  counts.push(screensToAsk(state, BASIS).length);
  let everything = state;
  for (const screen of SCREENS) {
    if (everything.answers[screen] || applies(screen, everything, edition1) !== true) continue;
    everything = { ...everything, answers: { ...everything.answers, [screen]: answersTo(screen, complaint, place) } };
  }
  all.push(Object.keys(everything.answers).length);
  const causes = new Set([complaint.truth.primary, ...complaint.truth.contributing]);
  const [one, other] = [leaderOf(state), leaderOf(everything)];
  if (one === other) sameLeader += 1;
  if (one && causes.has(one)) right += 1;
  if (other && causes.has(other)) rightOfAll += 1;
});

const middle = (list: readonly number[]) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const percent = (hits: number) => `${((100 * hits) / complaints.length).toFixed(1)} %`;
console.log(`${complaints.length} owners with an order: median ${middle(counts)} screens, most ${Math.max(...counts)}; everything that applies: median ${middle(all)}`);
console.log(`leader as if everything were asked: ${percent(sameLeader)}; cause right ${percent(right)}, with everything ${percent(rightOfAll)}`);
