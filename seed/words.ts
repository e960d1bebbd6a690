import type { Complaint } from "./causal-model";
import type { Random } from "./random";

/** What customers write, in a hurry, beside the vehicle. */
export function customersWords(random: Random, { truth, leaksFrom, fittedOn, fitter }: Complaint): string {
  const days = leaksFrom - fittedOn;
  const when = days < 2 ? random.pick(["straight after the first start", "from day one", "on the first drive"]) : days < 30 ? `after about ${days} days` : `after some ${Math.round(days / 7)} weeks`;
  const where = truth.wet.has("outside")
    ? random.pick(["all down the outside of it", "on the outside, cant see from where", "round the flange and on the floor"])
    : truth.wet.has("turbine") && truth.wet.has("compressor")
      ? random.pick(["on both ends", "in the exhaust side and in the boost pipe", "everywhere, intake and exhaust"])
      : truth.wet.has("turbine")
        ? random.pick(["in the exhaust side", "out of the downpipe joint", "in the turbine housing"])
        : random.pick(["in the intake side", "in the boost pipe", "in the compressor housing"]);
  const how = { film: random.pick(["A bit of oil", "An oily film", "Slightly wet"]), puddle: random.pick(["A puddle of oil", "Oil standing", "Quite some oil"]), dripping: random.pick(["Oil dripping", "Oil running out", "It drips oil"]) }[truth.amount];
  const smoke = truth.wet.has("turbine") && random.chance(0.5) ? random.pick([" Smokes blue at idle.", " Blue smoke when I let off.", " Smoking like a chimney on cold start."]) : "";
  const who = fitter ? random.pick([` Fitted by ${fitter.name}.`, " The garage fitted it and says the turbo is faulty.", " My garage says they did everything by the leaflet.", ""]) : random.pick([" Fitted it myself, took my time.", " I did the fitting, not my first one.", ""]);
  const close = random.pick(["", "", " Please send a new one.", " What now?", " Need the car for work.", " Is this normal??", " pls advise", " Thanks in advance.", " Can you tell me what to check, i have tools."]);
  const text = `${how} ${where} ${when}.${smoke}${who}${close}`;
  return random.chance(0.22) ? withTypos(random, text) : text;
}

/** The slips of a thumb: a dropped letter, two letters swapped, no capitals. */
function withTypos(random: Random, text: string): string {
  const slips = random.whole(1, 3);
  let slipped = random.chance(0.5) ? text.toLowerCase() : text;
  for (let slip = 0; slip < slips; slip += 1) {
    const at = random.whole(2, slipped.length - 3);
    slipped = random.chance(0.5) ? slipped.slice(0, at) + slipped.slice(at + 1) : slipped.slice(0, at) + slipped.charAt(at + 1) + slipped.charAt(at) + slipped.slice(at + 2);
  }
  return slipped;
}

export const CUSTOMER_FOLLOW_UPS = [
  "Any news? Car is standing.",
  "Photos are up, sorry for the oily fingers.",
  "Looked at it again with a lamp, same as I wrote.",
  "The garage can take it on the ramp on Thursday, is that soon enough?",
  "ok will do at the weekend",
  "I dont have a dial gauge. Is by hand enough?",
  "Checked the drain, it goes down all the way I think. See photo.",
  "Wiped it dry and drove to work and back, wet again.",
  "Thanks for the quick answer.",
  "Who pays the gasket if I take the drain off?",
] as const;

export const STAFF_ANSWERS = [
  "Thank you for the photos. Please keep the engine off until the check below is done; it takes a few minutes and costs nothing.",
  "We have your complaint. The drain is the first thing to look at: please check it from above, with the engine cold.",
  "Thank you. That rules out the filter. One more look is worth it before we ask you to take anything apart.",
  "Please let your garage do this one, it needs the vehicle on stands.",
  "We would like to see the unit on our bench. The label is on your complaint's page.",
  "No need to send anything in yet. Most leaks of this kind are put right at the drain or the vent.",
  "Understood, and sorry for the trouble. You will have our decision as soon as the bench has looked at the unit.",
  "By hand is not enough for fore-and-aft play, but do not buy a gauge for it: your garage will have one.",
] as const;

export const CHECK_NOTES = [
  "A photo from the side would help.",
  "With the engine cold, please.",
  "If you cannot see it from above, leave it to your garage.",
  "",
  "",
  "",
] as const;

export const CLEARED_WORDS = [
  "Rerouted the hose as you said, dry since a week. Thank you!",
  "It was the element. Took it out, no more oil.",
  "Garage found it and put it right, you can close this.",
  "Drained some oil out, level is ok now and it stays dry.",
] as const;

export const WITHDRAWN_WORDS = ["Sold the car, no longer needed.", "Sorry, found a loose clip on the rocker cover. Not the turbo.", "I have taken it back to the garage, they deal with it."] as const;

export const BENCH_NOTES = {
  sound: ["Turns freely, rings seated, dry on the rig.", "Nothing found. Cleaned and run, no leak.", "Within limits. Traces of sealant at the outlet.", "Play in range, wheels clean."],
  C15: ["Ring at the turbine end short of its groove, joint gap far too wide.", "Seal ring broken in its groove."],
  C16: ["Thrust face wiped, collar scored, play well over the limit.", "Thrust bearing gone."],
  C17: ["Pressure test: weeps through the casting beside the outlet.", "Core plug leaks at 1 bar."],
  C14: ["Journals scored, dirt in the oilway.", "Bearings ran dry: blue at the collar."],
  C13: ["Leading edges hit, bits of the old wheel in the housing."],
} as const;

export const OVERRULE_REASONS: Readonly<Record<string, readonly string[]>> = {
  drain: ["The photos show the drain clearly.", "The drain was taken off and looked through.", "The route of the drain settles it."],
  vent: ["The vent as it was led explains it.", "It has been dry since the vent was freed."],
  crankcase: ["The readings at the crankcase settle it.", "It was found on the engine by the garage."],
  intake: ["The filter is too small for this engine.", "The filter was found choked."],
  shaft: ["What was found on the shaft settles it.", "The play was measured and is out of range."],
  turbine: ["What was seen on the vehicle after cleaning speaks for it.", "The place where fresh oil showed first settles it."],
  compressor: ["The photos of the wheel leave no doubt.", "It is a film, and it stayed a film."],
  feed: ["The feed pressure was measured.", "No restrictor was fitted."],
};
