import { NOTHING_PROMISED } from "@/lib/domain/claims/bookings";
import type { PairUnit } from "@/lib/domain/claims/pair-units";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { VerdictWay } from "@/lib/domain/claims/verdict";
import type { Attribution, Origin } from "@/lib/domain/diagnosis/attributions";
import type { Cause, CauseCode, FindingCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import { afterWorkingHours, DAY, HOUR, type Instant } from "./calendar";
import type { Complaint } from "./causal-model";
import { basisOf, ClaimStory } from "./claim-story";
import type { World } from "./world";
import { checkWorthAsking, lookAtBench, lookFor, lookWhenFiling, TECHNICIANS_ONLY } from "./looking";
import type { SceneName } from "./photos/scenes";
import type { Random } from "./random";
import { BENCH_NOTES, CHECK_NOTES, CLEARED_WORDS, CUSTOMER_FOLLOW_UPS, customersWords, OVERRULE_REASONS, STAFF_ANSWERS, WITHDRAWN_WORDS } from "./words";

/** A picture that goes to the object store with the claim. */
export interface PictureToStore {
  storageKey: string;
  scene: SceneName;
}

/** Staff find the true cause in nine verdicts of ten. */
const VERDICT_IS_RIGHT = 0.9;

/** Tells the claim that came of a complaint, from filing to wherever it stands now. */
export function tellClaim(world: World, complaint: Complaint, earlier: { id: string; reference: string } | null): { id: string; reference: string; pictures: readonly PictureToStore[] } | null {
  const { random } = world;
  const { truth, shipment } = complaint;
  const filedAt = complaint.complainedOn * DAY + random.between(5.5, 21) * HOUR;
  if (filedAt > world.now) return null;
  const story = new ClaimStory(world, startOf(random, complaint, filedAt));
  const pictures: PictureToStore[] = [];
  const done = () => {
    story.tell();
    return { id: story.id, reference: story.reference, pictures };
  };

  story.file(filedAt);
  const observers = new Set<Observer>([story.filedBy]);
  for (const seen of lookWhenFiling(random, complaint, story.filedBy)) story.see(seen, filedAt);
  story.rank(filedAt);
  if (world.now - filedAt < 45 * DAY)
    for (const scene of scenesOf(random, complaint)) pictures.push({ storageKey: story.photograph(scene, filedAt, story.filedBy), scene });

  const desk = random.pick(world.staff.support);
  let at = afterWorkingHours(filedAt, random.exponential(12) + 0.2);
  if (random.chance(0.02) && at + 30 * HOUR <= world.now) {
    story.say("customer", random.pick(WITHDRAWN_WORDS), at);
    story.move("withdraw", at + HOUR, { kind: "customer" });
    return done();
  }
  if (!story.takeUp(at, desk)) return done();
  if (earlier) {
    story.merge(earlier, at + 0.2 * HOUR, desk);
    return done();
  }
  if (random.chance(0.5)) story.say("staff", random.pick(STAFF_ANSWERS), at + 0.3 * HOUR, desk);

  const unitSuspected = ["C14", "C15", "C16", "C17", "C22"].includes(truth.primary);
  const rounds = random.chance(unitSuspected ? 0.4 : 0.86) ? random.whole(1, 3) : 0;
  const asked = new Set<FindingCode>();
  for (let round = 0; round < rounds; round += 1) {
    const code = checkWorthAsking(random, () => story.latest?.ranking ?? null, complaint, story.filedBy, asked);
    if (!code) break;
    asked.add(code);
    at = afterWorkingHours(at, random.between(0.3, 3));
    const request = story.ask(code, random.pick(CHECK_NOTES), at, desk);
    if (!request) return done();
    if (random.chance(0.045)) {
      at += random.between(21, 26) * DAY;
      if (story.move("lapse", at, { kind: "system" })) story.close(request, "withdrawn", at, null);
      return done();
    }
    at += random.exponential(6) * DAY + 2 * HOUR;
    if (at > world.now) return done();
    const observer: Observer = story.filedBy === "technician" || TECHNICIANS_ONLY.has(code) ? "technician" : "customer";
    observers.add(observer);
    const seen = lookFor(random, code, complaint, observer);
    story.close(request, "answered", at, seen ? story.see(seen, at) : null);
    story.move("answer_checks", at, { kind: "customer" });
    if (seen) story.rank(at);
    if (random.chance(0.35)) story.say("customer", random.pick(CUSTOMER_FOLLOW_UPS), at + 0.1 * HOUR);
    if (EASILY_PUT_RIGHT.has(truth.primary) && random.chance(0.11)) {
      at += random.between(2, 9) * DAY;
      if (at > world.now) return done();
      story.say("customer", random.pick(CLEARED_WORDS), at);
      story.move("clear", at, { kind: "customer" });
      return done();
    }
  }

  if (shipment.unit && random.chance(unitSuspected ? 0.85 : 0.16)) {
    at = afterWorkingHours(at, random.between(0.5, 5));
    if (!story.authoriseReturn(at, desk)) return done();
    if (random.chance(0.05)) {
      at += 21 * DAY;
      if (!story.expireReturn(at)) return done();
    } else {
      if (!story.carry("in_carriage", at + random.between(1, 4) * DAY)) return done();
      const receivedAt = afterWorkingHours(at + random.between(5, 11) * DAY, 1);
      if (!story.carry("received", receivedAt, world.staff.bench)) return done();
      const benchAt = afterWorkingHours(receivedAt, random.between(3, 30));
      if (!story.carry("on_the_bench", benchAt, world.staff.bench)) return done();
      at = afterWorkingHours(benchAt, random.between(1, 4));
      const notes: readonly string[] = BENCH_NOTES[truth.primary as keyof typeof BENCH_NOTES] ?? BENCH_NOTES.sound;
      const disposition = random.pick(unitSuspected ? (["held_as_evidence", "sent_to_supplier"] as const) : (["returned_to_customer", "restocked"] as const));
      if (!story.inspect(lookAtBench(random, complaint), random.pick(notes), disposition, at)) return done();
      observers.add("bench");
      story.rank(at);
    }
  }

  at = afterWorkingHours(at, random.exponential(19) + 0.5);
  if (!decide(world, story, complaint, observers, pictures.length > 0, at, desk)) return done();
  if (random.chance(0.025)) {
    at += random.between(2, 12) * DAY;
    if (!story.appeal("I dont agree, the garage says the fitting is fine. Please look at it again.", at)) return done();
    at = afterWorkingHours(at, random.between(4, 16));
    if (!decide(world, story, complaint, observers, pictures.length > 0, at, random.pick(world.staff.support))) return done();
  }
  at = afterWorkingHours(at, random.exponential(14) + 2);
  if (random.chance(0.97)) story.settle(story.remedy, costOf(random, story.remedy), at, desk);
  return done();
}

const EASILY_PUT_RIGHT = new Set<CauseCode>(["C01", "C02", "C06", "C07", "C09", "C11", "C12", "C20"]);

/** The kits of a compound pair, each for one of its units. */
export const PAIR_UNIT_OF: Readonly<Partial<Record<string, PairUnit>>> = { "KH-810": "large", "KH-820": "small" };

function startOf(random: Random, complaint: Complaint, filedAt: Instant) {
  const { shipment, fitter, fittedOn } = complaint;
  const { customer, kit, vehicle, unit } = shipment;
  const filedBy: Observer = fitter && random.chance(0.42) ? "technician" : "customer";
  const vehicleNamed = shipment.vehicleKnown || random.chance(0.8);
  const orderGiven = random.chance(0.83);
  const driven = Math.round(random.logNormal(1 + (complaint.complainedOn - fittedOn) * 38, 0.5));
  return {
    filedBy,
    contact: { ...customer, phone: random.chance(0.4) ? `+00 555 ${String(random.whole(0, 9999)).padStart(4, "0")}` : null },
    description: customersWords(random, complaint),
    orderNumber: orderGiven ? shipment.orderNumber : null,
    serial: unit && (!orderGiven || random.chance(0.55)) ? unit.serial : null,
    shipmentId: shipment.id,
    unitId: unit?.id ?? null,
    kitId: kit.id,
    kitRevisionId: shipment.revision.id,
    vehicleId: vehicleNamed ? vehicle.id : null,
    fuel: vehicleNamed ? vehicle.fuel : null,
    vehicleWords: vehicleNamed ? null : random.pick([`${vehicle.make} ${vehicle.model}`, `${vehicle.model.toLowerCase()} ${vehicle.engine.slice(0, 3)}`, `${vehicle.make}, ${vehicle.engine}`]),
    pairUnit: PAIR_UNIT_OF[kit.code] ?? null,
    fitterId: fitter && random.chance(0.85) ? fitter.id : null,
    fittedOn,
    distanceKm: kit.code === "KH-710" ? null : driven,
    hoursRun: kit.code === "KH-710" ? Math.round(driven / 30) : null,
    answers: { who: { who: filedBy === "technician" ? "technician" : "owner" } },
    createdAt: filedAt - random.between(0.1, 3) * HOUR,
  };
}

function decide(world: World, story: ClaimStory, complaint: Complaint, observers: ReadonlySet<Observer>, hasPhoto: boolean, at: Instant, desk: string): boolean {
  const { random, edition } = world;
  const { truth } = complaint;
  const ranking = story.latest?.ranking;
  const ranked = ranking?.outcome === "ranked" ? ranking.causes : [];
  const leader = ranked[0]?.code;
  const isRight = random.chance(VERDICT_IS_RIGHT);
  const wrongly = ranked.slice(0, 4).find(({ code }) => code !== truth.primary)?.code;
  const primaryCause = isRight || !wrongly ? truth.primary : wrongly;
  const cause = causeOf(edition.causes, primaryCause);
  const origin = originSeen(random, cause, truth.origin);
  const attribution: Attribution = origin === "kit" ? "kit" : origin === "fitter" ? "fit" : cause.attribution;
  const way: VerdictWay = primaryCause === leader ? "confirmed" : "overruled";
  return story.decide(
    {
      primaryCause,
      contributingCauses: truth.contributing.filter((code) => code !== primaryCause && random.chance(0.7)).slice(0, 2),
      attribution,
      origin,
      way,
      basis: basisOf(observers, hasPhoto || random.chance(0.55)),
      reason: way === "overruled" ? random.pick(OVERRULE_REASONS[cause.part] ?? ["Seen on the vehicle."]) : "",
      remedy: random.weighted(REMEDIES_BY_ATTRIBUTION[attribution]),
      ...NOTHING_PROMISED,
      letterPhotos: [],
    },
    at,
    desk,
  );
}

/** Staff cannot always tell whether the fitter or the kit's own parts are at the root. */
function originSeen(random: Random, cause: Cause, truth: "fitter" | "kit" | null): Origin | null {
  if (!cause.originIsOpen) return null;
  if (truth === null) return "not_known";
  return random.weighted<Origin>(truth === "kit" ? { kit: 80, not_known: 15, fitter: 5 } : { fitter: 77, not_known: 18, kit: 5 });
}

function causeOf(causes: readonly Cause[], code: CauseCode): Cause {
  const cause = causes.find((one) => one.code === code);
  if (!cause) throw new Error(`the edition in force has no cause ${code}`);
  return cause;
}

const REMEDIES_BY_ATTRIBUTION: Readonly<Record<Attribution, Readonly<Partial<Record<Remedy, number>>>>> = {
  fit: { advice: 56, declined: 23, part_sent: 13, goodwill: 8 },
  kit: { part_sent: 64, advice: 18, refund: 7, replacement: 6, goodwill: 5 },
  engine: { advice: 70, declined: 25, goodwill: 5 },
  unit: { replacement: 76, refund: 14, repair: 10 },
  normal: { advice: 94, goodwill: 3, declined: 3 },
  transit: { replacement: 82, refund: 18 },
  elsewhere: { advice: 76, declined: 20, goodwill: 4 },
};

/** Cost to the seller, cents. */
const COSTS: Readonly<Record<Remedy, readonly [number, number] | null>> = {
  advice: null,
  declined: null,
  part_sent: [1_800, 14_500],
  repair: [12_000, 31_000],
  replacement: [38_000, 118_000],
  refund: [52_000, 179_000],
  goodwill: [4_000, 20_000],
};

function costOf(random: Random, remedy: Remedy): number {
  const range = COSTS[remedy];
  return range ? random.whole(...range) : 0;
}

function scenesOf(random: Random, { truth }: Complaint): readonly SceneName[] {
  const scenes: SceneName[] = [];
  if (truth.wet.has("turbine")) scenes.push("turbine-wet");
  if (truth.wet.has("compressor")) scenes.push(truth.amount === "film" ? "compressor-film" : "compressor-puddle");
  if (random.chance(0.6)) scenes.push(truth.present.has("C01") ? random.pick(["drain-level", "drain-sagging"]) : truth.present.has("C02") ? "drain-kinked" : "drain-straight");
  if (truth.present.has("C06") && truth.vent !== "intake" && random.chance(0.6)) scenes.push("vent-element");
  if (truth.vent === "intake" && random.chance(0.4)) scenes.push("vent-to-intake");
  if (truth.present.has("C11") && random.chance(0.6)) scenes.push(random.pick(["filter-dirty", "filter-small"]));
  if (truth.present.has("C22")) scenes.push("broken-crate");
  return scenes.filter(() => random.chance(0.75)).slice(0, 4);
}
