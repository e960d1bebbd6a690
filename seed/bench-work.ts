import type { BenchStep } from "@/lib/domain/claims/bench-steps";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import { HOUR } from "./calendar";
import type { ClaimStory } from "./claim-story";
import type { World } from "./world";
import type { PictureToStore } from "./claims";
import { OpenedClaims, type Opening, sees, type Stock } from "./opened-claims";
import type { SceneName } from "./photos/scenes";

/** Working days before the end of the story, and the hour of that day. */
type Workday = readonly [workdaysAgo: number, hour: number];

interface Step {
  step: BenchStep;
  found?: Readonly<Record<FindingCode, string | number>>;
  /** What is looked at and has no figure in the knowledge. */
  facts?: Readonly<Record<string, string>>;
  scene?: SceneName;
}

interface UnitUnderWay {
  opening: Opening;
  /** What support wrote when they asked for it. */
  words: string;
  asked: Workday;
  sent?: Workday;
  came?: Workday;
  bench?: { from: Workday; steps: readonly Step[]; done?: string };
}

/** What a garage has looked at before a unit is asked for: drain, vent and feed are as they should be. */
const ALL_ELSE_IS_RIGHT: Readonly<Record<FindingCode, string | number>> = { F01: "present", F02: "absent", F04: "present", F05: "absent", F10: "present", F12: "absent", F13: 19, F14: 140, F16: "absent", F17: "absent", F22: "absent", F24: "catch-can", F25: "absent", F29: 0.15, F33: "middle" };

/** Units under way, from one that is still to be packed to one that is inspected and not decided. */
const UNDER_WAY: readonly UnitUnderWay[] = [
  {
    opening: {
      purchase: { kit: "KH-620", shippedDaysAgo: 130, fittedAfterDays: 24 },
      filedBy: "technician",
      name: "Dorte Hasselwick",
      words: "Pello of a regular of ours. Exhaust side wet again 1,500 km after fitting, intake side bone dry. Drain off and looked through, free, falls all the way. Crankcase pressure taken warm, nothing.",
      filed: [19, 10.3],
      findings: { ...ALL_ELSE_IS_RIGHT, F07: "later", F40: "absent", F43: "absent", F44: "absent" },
      scenes: ["turbine-wet", "drain-straight"],
      distanceKm: 1_500,
      byGarage: true,
    },
    words: "Everything around the unit is as it should be, so we would like to look at the unit itself. Please plug the ports.",
    asked: [8, 11.2],
    sent: [5, 15],
    came: [4, 10.1],
    bench: {
      from: [1, 13.4],
      steps: [
        { step: "identity", facts: { plate: "same" } },
        { step: "outside", found: { F51: "absent" }, facts: { plugs: "all", oilSeen: "turbine" } },
        { step: "outlet", facts: { sealant: "none", gasket: "whole" } },
        { step: "fore_and_aft", found: { F40: "present", F41: 0.31 }, scene: "shaft-play" },
      ],
    },
  },
  {
    opening: {
      purchase: { kit: "KH-520", shippedDaysAgo: 110, fittedAfterDays: 15 },
      filedBy: "technician",
      name: "Levin Craddock",
      words: "Whistle and a smear of oil at the nose since about 3,000 km. Customer says he heard a bang once. Filter box had a cracked lid, changed it.",
      filed: [20, 14.6],
      findings: { ...ALL_ELSE_IS_RIGHT, F02: "present", F07: "later", F34: "absent", F40: "absent", F43: "absent", F44: "absent" },
      scenes: ["compressor-film"],
      distanceKm: 3_100,
      byGarage: true,
    },
    words: "A bang is worth a look at the wheels. The label is on your page.",
    asked: [9, 9.4],
    sent: [7, 12],
    came: [5, 9.2],
    bench: {
      from: [2, 9.1],
      steps: [
        { step: "identity", facts: { plate: "same" } },
        { step: "outside", found: { F51: "absent" }, facts: { plugs: "some", oilSeen: "compressor" } },
        { step: "fore_and_aft", found: { F40: "absent", F41: 0.06 } },
        { step: "radial", found: { F42: 0.09 } },
        { step: "rig", found: { F48: "absent" } },
        { step: "wheels", found: { F43: "absent", F44: "absent", F49: "absent" } },
      ],
      done: "Nothing found on it. Wheels clean, play within limits, dry on the rig for 20 minutes.",
    },
  },
  {
    opening: {
      purchase: { kit: "KH-320", shippedDaysAgo: 160, fittedAfterDays: 30 },
      filedBy: "technician",
      name: "Yann Oderwick",
      words: "Terrane, tows horses. Oil out of the turbine joint after every long climb. Feed 3.2 bar hot, drain 19 mm and steep, no blow-by to speak of.",
      filed: [21, 9.8],
      findings: { ...ALL_ELSE_IS_RIGHT, F07: "after-5000-km", F38: 3.2, F39: "absent", F40: "present" },
      scenes: ["turbine-wet", "drain-straight"],
      distanceKm: 9_400,
      byGarage: true,
    },
    words: "Thank you for measuring all of it. Please send us the unit, drained and bagged.",
    asked: [8, 14.3],
    sent: [6, 10],
    came: [4, 9.1],
  },
  {
    opening: {
      purchase: { kit: "KH-410", shippedDaysAgo: 95, fittedAfterDays: 12 },
      filedBy: "technician",
      name: "Ilka Thornbeck",
      words: "Petrol Sill. Blue smoke when warm, plugs two and three oiled. Intake pipe dry, exhaust side wet. Vent goes to a can, can stays empty.",
      filed: [18, 16.1],
      findings: { ...ALL_ELSE_IS_RIGHT, F06: "present", F07: "later" },
      scenes: ["turbine-wet"],
      distanceKm: 2_600,
      byGarage: true,
    },
    words: "We would like to run this one on our rig. Label and packing notes are on your page.",
    asked: [7, 10.5],
    sent: [4, 16],
    came: [3, 8.8],
  },
  {
    opening: {
      purchase: { kit: "KH-510", shippedDaysAgo: 140, fittedAfterDays: 21 },
      filedBy: "technician",
      name: "Rasmus Feddern",
      words: "Fellrider works in a quarry. Shaft feels loose to the fingers, oil at both ends. Air filter is new and the big one.",
      filed: [19, 8.4],
      findings: { ...ALL_ELSE_IS_RIGHT, F02: "present", F07: "after-5000-km", F34: "absent", F40: "present", F44: "absent" },
      scenes: ["turbine-wet", "compressor-film"],
      distanceKm: 11_800,
      byGarage: true,
    },
    words: "A loose shaft is for our bench. Please leave everything as it is, oil pipes off and ports plugged.",
    asked: [6, 9.7],
    sent: [5, 11],
    came: [2, 13.6],
  },
  {
    opening: {
      purchase: { kit: "KH-110", shippedDaysAgo: 85, fittedAfterDays: 18 },
      filedBy: "customer",
      name: "Nele Wickersund",
      words: "Carrow drips from the turbo over night. My garage had drain and breather off twice and found nothing, they say it is the turbo now.",
      filed: [17, 19.4],
      findings: { F01: "present", F02: "absent", F04: "present", F05: "absent", F07: "later", F12: "absent", F22: "absent", F24: "intake", F33: "low" },
      scenes: ["turbine-wet", "drain-straight"],
      distanceKm: 1_900,
      byGarage: true,
    },
    words: "Let us look at the unit ourselves. Return label and how to pack it are on your page; carriage is on us.",
    asked: [6, 15.2],
    sent: [3, 17],
    came: [1, 13.7],
  },
  {
    opening: {
      purchase: { kit: "KH-620", shippedDaysAgo: 70, fittedAfterDays: 9 },
      filedBy: "technician",
      name: "Piet Alderwen",
      words: "Came out of the crate with the oil outlet flange chipped. Fitted it all the same, weeps there.",
      filed: [15, 11.9],
      findings: { ...ALL_ELSE_IS_RIGHT, F01: "absent", F05: "present", F07: "first-start", F51: "present" },
      scenes: ["broken-crate"],
      distanceKm: 120,
      byGarage: true,
    },
    words: "Please send it in its crate, the crate tells us a lot.",
    asked: [5, 13.1],
    sent: [3, 9],
    came: [1, 15.3],
  },
  {
    opening: {
      purchase: { kit: "KH-320", shippedDaysAgo: 75, fittedAfterDays: 20 },
      filedBy: "technician",
      name: "Sibel Marrowgate",
      words: "Second wet turbine on this make within a month. Same as the last one: everything measured, everything right.",
      filed: [13, 12.5],
      findings: { ...ALL_ELSE_IS_RIGHT, F07: "later", F40: "absent" },
      scenes: ["turbine-wet"],
      distanceKm: 800,
      byGarage: true,
    },
    words: "Please send the unit, with the gasket of the outlet if you still have it.",
    asked: [4, 10.8],
    sent: [2, 14],
  },
  {
    opening: {
      purchase: { kit: "KH-110", shippedDaysAgo: 60, fittedAfterDays: 14 },
      filedBy: "technician",
      name: "Oda Brennick",
      words: "Shaft touches the housing when pushed forward. Found it when the intake hose was off for another job, film of oil behind the wheel.",
      filed: [12, 15.7],
      findings: { ...ALL_ELSE_IS_RIGHT, F01: "absent", F02: "present", F07: "later", F40: "present", F43: "present" },
      scenes: ["compressor-film"],
      distanceKm: 2_200,
      byGarage: true,
    },
    words: "That should not be. Please send it to us; do not run the engine with it.",
    asked: [2, 11.4],
  },
];

/**
 * What the bench has to do, whatever day it is: units to be sent, on their way, at the door, on shelves, one half-way
 * through its inspection and one that is inspected and not decided.
 */
export function tellBenchWork(world: World, stock: Stock): readonly PictureToStore[] {
  const claims = new OpenedClaims(world, stock);
  for (const [index, unit] of UNDER_WAY.entries()) {
    const desk = world.staff.support[index % 2 === 0 ? 0 : 1];
    const { story } = claims.open(unit.opening);
    const askedAt = claims.onWorkday(...unit.asked);
    story.takeUp(askedAt - 2 * HOUR, desk);
    story.authoriseReturn(askedAt, desk);
    story.say("staff", unit.words, askedAt + HOUR / 10, desk);
    if (unit.sent) story.carry("in_carriage", claims.onWorkday(...unit.sent));
    if (unit.came) story.carry("received", claims.onWorkday(...unit.came), world.staff.bench);
    if (unit.bench) inspect(claims, story, unit.bench);
    story.tell();
  }
  return claims.pictures;
}

/** Each step takes a quarter of an hour. */
function inspect(claims: OpenedClaims, story: ClaimStory, { from, steps, done }: NonNullable<UnitUnderWay["bench"]>): void {
  let at = claims.onWorkday(...from);
  const inspectionId = story.beginInspection(at);
  for (const { step, found = {}, facts = {}, scene } of steps) {
    at += HOUR / 4;
    if (scene) claims.pictures.push({ storageKey: story.photograph(scene, at, "bench", { inspectionId, step }), scene });
    story.keepStep(inspectionId, { step, found: sees("bench", found), facts }, at);
  }
  if (done) story.finishInspection(inspectionId, done, at + HOUR / 4);
}
