import { hashSecret } from "@/lib/access/secrets";
import type { Attribution, Origin } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { NOTHING_PROMISED } from "@/lib/domain/claims/bookings";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { VerdictBasis, VerdictWay } from "@/lib/domain/claims/verdict";
import { composeMail } from "@/lib/mail/compose";
import { DAY, type Instant, isoInstant } from "./calendar";
import { faultyBatch } from "./causal-model";
import { ClaimStory } from "./claim-story";
import type { World } from "./world";
import type { PictureToStore } from "./claims";
import type { Seen } from "./looking";
import { OpenedClaims, sees, type Stock } from "./opened-claims";
import { SELLER } from "./seller";

/** Secrets of the private links in the demo's mail. Known to everybody: they open two invented claims. */
export const DEMO_LINK_SECRETS = { openCheck: "demo-the-vent-of-runas-terrane-is-open", letter: "demo-the-letter-about-orlas-drover" } as const;

interface Ruling {
  cause: CauseCode;
  contributing?: readonly CauseCode[];
  attribution: Attribution;
  origin: Origin | null;
  basis: VerdictBasis;
  remedy: Remedy;
  reason: string;
}

/** Twelve claims written by hand, one in each stage and one reopened by an appeal, with pictures. */
export function tellHandWrittenClaims(world: World, stock: Stock, origin: string): readonly PictureToStore[] {
  const { now, staff } = world;
  const [iris, jonah] = staff.support;
  const today = Math.floor(now / DAY);
  const claims = new OpenedClaims(world, stock);
  const on = claims.on.bind(claims);

  const decide = (story: ClaimStory, ruling: Ruling, at: Instant, personId: string) => {
    const leader = story.latest?.ranking.outcome === "ranked" ? story.latest.ranking.causes[0]?.code : undefined;
    const way: VerdictWay = leader === ruling.cause ? "confirmed" : "overruled";
    const { attribution, origin, basis, remedy, reason } = ruling;
    story.decide({ primaryCause: ruling.cause, contributingCauses: ruling.contributing ?? [], attribution, origin, way, basis, reason, remedy, ...NOTHING_PROMISED, letterPhotos: [] }, at, personId);
  };

  // A draft: somebody began on the phone and has not come back yet.
  const begun = claims.pick({ kit: "KH-620", shippedDaysAgo: 20, fittedAfterDays: 6 });
  const draft = new ClaimStory(world, {
    filedBy: "customer",
    contact: null,
    description: "",
    orderNumber: begun.orderNumber,
    serial: null,
    shipmentId: null,
    unitId: null,
    kitId: null,
    kitRevisionId: null,
    vehicleId: null,
    fuel: null,
    vehicleWords: null,
    fitterId: null,
    fittedOn: null,
    distanceKm: null,
    hoursRun: null,
    answers: { who: { who: "owner" }, purchase: { by: "order" }, order: { number: begun.orderNumber, email: begun.customer.email }, oil: { place: "turbine", elsewhere: "unseen" } },
    createdAt: on(1, 20.2),
  });
  draft.tell();

  // Filed yesterday evening: the one-piece drain line on the Drover 3.0, as in a whole series of claims.
  const filed = claims.open({
    purchase: { kit: "KH-210", revision: "C", vehicle: "drover30", shippedDaysAgo: 26, fittedAfterDays: 12 },
    filedBy: "customer",
    name: "Henrik Stenmark",
    words: "Fitted the kit myself over two weekends. Ran fine on the drive, then blue smoke at the first traffic light and since then oil in the downpipe. The drain hose in the kit is one piece now and it lies almost flat over the engine mount, I could not get it steeper. Is that how it is meant to be?",
    filed: [1, 18.6],
    findings: { F01: "present", F02: "absent", F04: "present", F06: "present", F07: "first-start", F12: "present", F24: "catch-can", F25: "absent", F22: "absent", F33: "middle", F08: "vent-sump-or-drain" },
    scenes: ["drain-level", "turbine-wet"],
    distanceKm: 240,
  });
  filed.story.tell();

  // In review: oil in the intake of a diesel, so the engine must stand still; the old filter was kept.
  const reviewed = claims.open({
    purchase: { kit: "KH-310", vehicle: "terrane32", shippedDaysAgo: 90, fittedAfterDays: 14 },
    filedBy: "customer",
    name: "Pia Marlowick",
    words: "oil standing in the boost pipe, a good cup of it when i took the hose off. the car pulls a caravan. filter is the one from before, garage said it would do",
    filed: [3, 16.3],
    findings: { F01: "absent", F02: "present", F03: "absent", F04: "present", F07: "later", F24: "open-air", F25: "absent", F34: "present", F36: "often", F33: "middle" },
    scenes: ["compressor-puddle", "filter-small", "filter-dirty"],
    distanceKm: 3_900,
    byGarage: true,
  });
  reviewed.story.takeUp(on(2, 8.6), jonah);
  reviewed.story.say("staff", "Please do not start the engine: with free oil in the intake a diesel can run away and not stop with the key. Thank you for the photo of the filter, that helps a lot. I am comparing it with what this kit needs.", on(2, 9.1), jonah);
  reviewed.story.say("customer", "ok car stays where it is. thanks for the warning", on(2, 12.4));
  reviewed.story.tell();

  // Awaiting a check: its private page can be opened from the demo's mail.
  const checked = claims.open({
    purchase: { kit: "KH-320", vehicle: "terrane28", shippedDaysAgo: 60, fittedAfterDays: 20 },
    filedBy: "customer",
    name: "Runa Ullerby",
    words: "Oil from both sides of the turbo since the conversion. The breather used to go to the intake, now it goes to a little filter box beside the battery. Drain goes straight down, I checked.",
    filed: [3, 8.2],
    findings: { F01: "present", F02: "present", F04: "present", F07: "first-start", F08: "vent-sump-or-drain", F12: "absent", F24: "open-air", F22: "absent", F33: "middle", F36: "seldom" },
    scenes: ["turbine-wet", "drain-straight", "vent-element"],
    distanceKm: 900,
  });
  checked.story.takeUp(on(3, 11.2), iris);
  checked.story.say("staff", "Thank you, the drain looks right on your photo. One more look at the vent should settle it: open the little box the hose goes to, with the engine cold, and see whether there is still an element in it.", on(3, 11.6), iris);
  checked.story.ask("F25", "The box beside the battery. A photo with the lid off, please.", on(3, 11.7), iris);
  linkByMail(world, checked.story, origin, DEMO_LINK_SECRETS.openCheck, on(3, 11.7), {
    subject: `One question about your complaint ${checked.story.reference}`,
    paragraphs: ["We have looked at your complaint and have one question that is likely to settle it. It takes about ten minutes, costs nothing and needs no tools.", "Please keep the engine off until then."],
    label: "Open your complaint",
  });
  checked.story.tell();

  // Awaiting the unit: on the shelf of the bench, out of the batch with the short seal rings.
  const awaited = claims.open({
    purchase: { kit: "KH-220", batch: faultyBatch(today), shippedDaysAgo: 250, fittedAfterDays: 30 },
    filedBy: "technician",
    name: "Goran Vanterpool",
    words: "Customer's Drover, unit fitted by us. Drain 19 mm straight down, crankcase pressure measured 0.15 kPa at load, vent free. Turbine side wet after 2,000 km, compressor side dry. Nothing else left but the unit.",
    filed: [11, 9.4],
    findings: { F01: "present", F02: "absent", F04: "present", F05: "absent", F07: "later", F10: "present", F12: "absent", F13: 19, F14: 150, F16: "absent", F17: "absent", F19: "absent", F20: 3, F21: 2, F22: "absent", F24: "catch-can", F25: "absent", F29: 0.15, F30: 38, F33: "middle", F38: 3.4, F39: "absent", F40: "absent", F41: 0.07, F43: "absent", F44: "absent", F50: "absent" },
    scenes: ["turbine-wet", "drain-straight", "compressor-dry"],
    distanceKm: 2_050,
    byGarage: true,
  });
  awaited.story.takeUp(on(11, 11.5), iris);
  awaited.story.authoriseReturn(on(11, 14.2), iris);
  awaited.story.say("staff", "That is a thorough job, thank you. We would like to see the unit on our bench: the label is on your complaint's page.", on(11, 14.3), iris);
  awaited.story.carry("in_carriage", on(9, 10));
  awaited.story.carry("received", on(1, 9.3), staff.bench);
  awaited.story.tell();

  // Decided: the letter can be opened from the demo's mail.
  const decided = claims.open({
    purchase: { kit: "KH-210", vehicle: "drover24", shippedDaysAgo: 75, fittedAfterDays: 25 },
    filedBy: "customer",
    name: "Orla Fallowby",
    words: "Smokes and drips from the turbo since my garage fitted it. They say turbo is broken. I am without a car for a week now.",
    filed: [8, 19.1],
    findings: { F01: "present", F02: "present", F04: "present", F06: "present", F07: "first-start", F24: "catch-can", F33: "low" },
    scenes: ["turbine-wet"],
    distanceKm: 60,
    byGarage: true,
  });
  decided.story.takeUp(on(7, 8.9), jonah);
  const drainCheck = decided.story.ask("F17", "Please have your garage take the drain off and look through it.", on(7, 9.2), jonah);
  decided.story.say("customer", "Garage had it off today. There is a sharp bend right under the turbo, they had turned the hose to get past the mount.", on(4, 17.4));
  claims.photograph(decided.story, ["drain-kinked"], on(4, 17.4), "technician");
  answer(decided.story, drainCheck, { code: "F17", observer: "technician", answer: "present", measured: null, unit: null }, on(4, 18.2));
  decide(
    decided.story,
    { cause: "C02", attribution: "fit", origin: "fitter", basis: "technician", remedy: "part_sent", reason: "Your garage's photo shows the drain kinked right below the unit; a new hose is on its way all the same." },
    on(3, 10.4),
    jonah,
  );
  linkByMail(world, decided.story, origin, DEMO_LINK_SECRETS.letter, on(3, 10.4), {
    subject: `Our answer to your complaint ${decided.story.reference}`,
    paragraphs: ["We have looked at everything you and your garage sent. The oil drain is kinked below the unit, so the oil cannot leave it; the unit itself shows no fault.", "The whole letter is on your complaint's page. If you see it otherwise, tell us there."],
    label: "Read the letter",
  });
  decided.story.tell();

  // Settled: the bench found the ring, the unit was replaced.
  const settled = claims.open({
    purchase: { kit: "KH-320", batch: faultyBatch(today), shippedDaysAgo: 260, fittedAfterDays: 20 },
    filedBy: "technician",
    name: "Sanna Ellerholt",
    words: "Second unit on this engine, the first ran 120,000 km without a drop. Same drain, same vent. This one leaks at the turbine only, after about a month.",
    filed: [60, 10.2],
    findings: { F01: "present", F02: "absent", F04: "present", F05: "absent", F07: "later", F10: "present", F12: "absent", F13: 19, F24: "catch-can", F25: "absent", F28: "absent", F40: "absent" },
    scenes: ["turbine-wet", "drain-straight"],
    distanceKm: 1_600,
  });
  settled.story.takeUp(on(60, 13.7), iris);
  settled.story.authoriseReturn(on(60, 14.5), iris);
  settled.story.carry("in_carriage", on(58, 9));
  settled.story.carry("received", on(53, 8.4), staff.bench);
  settled.story.carry("on_the_bench", on(52, 9.1), staff.bench);
  settled.story.inspect(
    sees("bench", { F41: 0.08, F42: 0.11, F45: "present", F46: "absent", F47: "absent", F48: "present", F49: "absent" }),
    "Ring at the turbine end too short for its groove: gap 0.9 mm where 0.25 is right. Third of this batch on my bench.",
    "held_as_evidence",
    on(52, 12.3),
  );
  claims.photograph(settled.story, ["shaft-play", "seal-ring"], on(52, 12.3), "bench");
  settled.story.rank(on(52, 12.3));
  decide(
    settled.story,
    { cause: "C15", attribution: "unit", origin: null, basis: "bench", remedy: "replacement", reason: "Our bench found a seal ring too short for its groove." },
    on(51, 9.6),
    iris,
  );
  settled.story.settle("replacement", 64_900, on(50, 15.2), iris);
  settled.story.tell();

  // Cleared: a check put it right.
  const cleared = claims.open({
    purchase: { kit: "KH-620", vehicle: "pello26", shippedDaysAgo: 120, fittedAfterDays: 9 },
    filedBy: "customer",
    name: "Joost Hallowin",
    words: "Van leaks oil at the turbo when warm. Breather goes to open air now with the old valve still in the line.",
    filed: [27, 20.4],
    findings: { F01: "present", F02: "present", F04: "present", F07: "first-start", F12: "absent", F24: "open-air" },
    scenes: ["vent-element", "turbine-wet"],
    distanceKm: 1_100,
  });
  cleared.story.takeUp(on(26, 9.2), jonah);
  const ventCheck = cleared.story.ask("F25", "", on(26, 9.5), jonah);
  answer(cleared.story, ventCheck, { code: "F25", observer: "customer", answer: "present", measured: null, unit: null }, on(25, 18.8));
  cleared.story.say("customer", "Had the vent put back as the maker has it. Dry for a week now, thank you!", on(16, 19.2));
  cleared.story.move("clear", on(16, 19.4), { kind: "customer" });
  cleared.story.tell();

  // Withdrawn.
  const withdrawn = claims.open({
    purchase: { kit: "KH-520", shippedDaysAgo: 45, fittedAfterDays: 10 },
    filedBy: "customer",
    name: "Emil Kettlebeck",
    words: "Wet all round the turbo, mostly at the back.",
    filed: [14, 17.5],
    findings: { F01: "absent", F05: "present", F04: "absent", F07: "later" },
    scenes: ["turbine-dry"],
    distanceKm: 700,
  });
  withdrawn.story.say("customer", "Found it: the rocker cover weeps and it runs down. Sorry for the trouble.", on(13, 13.2));
  withdrawn.story.move("withdraw", on(13, 13.3), { kind: "customer" });
  withdrawn.story.tell();

  // Lapsed: asked, reminded, no answer.
  const lapsed = claims.open({
    purchase: { kit: "KH-510", shippedDaysAgo: 160, fittedAfterDays: 40 },
    filedBy: "customer",
    name: "Kasimir Dunmarsh",
    words: "oil. want new turbo",
    filed: [46, 21.3],
    findings: { F02: "present" },
    scenes: ["compressor-film"],
    distanceKm: 5_200,
  });
  lapsed.story.takeUp(on(45, 9.8), iris);
  const vent = lapsed.story.ask("F24", "Where does the hose from the rocker cover end?", on(45, 10), iris);
  lapsed.story.say("staff", "We still need to know where the crankcase vent leads. Without an answer we close the complaint in a week. An answer opens it again at any time.", on(31, 9.1), iris);
  if (vent) lapsed.story.close(vent, "withdrawn", on(23, 9), null);
  lapsed.story.move("lapse", on(23, 9), { kind: "system" });
  lapsed.story.tell();

  // Merged: the same complaint as the one of the caravan, from another browser.
  const merged = claims.open({
    purchase: { kit: "KH-310", shippedDaysAgo: 90, fittedAfterDays: 14 },
    shipment: reviewed.shipment,
    filedBy: "customer",
    name: "Pia Marlowick",
    words: "Sending again from the computer, not sure the first one went through. Oil in the boost pipe.",
    filed: [2, 17.9],
    findings: { F02: "present", F04: "present" },
    scenes: ["compressor-puddle"],
    distanceKm: 3_900,
  });
  merged.story.takeUp(on(1, 8.7), jonah);
  merged.story.merge(reviewed.story, on(1, 8.8), jonah);
  merged.story.tell();

  // Reopened by an appeal: thought to be the vent, then the owner sent a photo of the frost.
  const appealed = claims.open({
    purchase: { kit: "KH-710", shippedDaysAgo: 330, fittedAfterDays: 20 },
    filedBy: "customer",
    name: "Wim Ostermere",
    words: "Tractor stands outside. Leaks oil at the turbo on cold mornings only, by noon it stops. Neighbour's has no kit and does not.",
    filed: [22, 11.2],
    findings: { F01: "present", F02: "present", F04: "present", F07: "later", F12: "absent", F24: "open-air", F33: "low" },
    scenes: ["turbine-wet"],
    distanceKm: 0,
  });
  appealed.story.takeUp(on(22, 15.4), jonah);
  decide(
    appealed.story,
    { cause: "C06", attribution: "fit", origin: "not_known", basis: "customer_word", remedy: "declined", reason: "The vent was led to open air when the kit was fitted." },
    on(20, 10.1),
    jonah,
  );
  appealed.story.appeal("The hose is wide and empty, I looked. But this morning it was full of ice, see photo. It only leaks in frost!", on(4, 7.6));
  claims.photograph(appealed.story, ["vent-iced"], on(4, 7.6), "customer");
  for (const seen of sees("customer", { F25: "absent", F27: "only-in-frost" })) appealed.story.see(seen, on(4, 7.6));
  appealed.story.rank(on(4, 7.6));
  appealed.story.tell();

  return claims.pictures;
}

function answer(story: ClaimStory, request: ReturnType<ClaimStory["ask"]>, seen: Seen, at: Instant): void {
  if (!request) throw new Error("a hand-written claim asks for nothing after the end of the story");
  story.close(request, "answered", at, story.see(seen, at));
  story.move("answer_checks", at, { kind: "customer" });
  story.rank(at);
}

interface LinkMail {
  subject: string;
  paragraphs: readonly string[];
  label: string;
}

/** A private link that has gone out by mail, with a secret that the demo knows. */
function linkByMail({ tables, random, now }: World, story: ClaimStory, origin: string, secret: string, at: Instant, { subject, paragraphs, label }: LinkMail): void {
  tables.add("claim_key", {
    id: random.uuid(),
    claim_id: story.id,
    kind: "link",
    hash: hashSecret(secret),
    created_at: isoInstant(at),
    expires_at: isoInstant(now + 90 * DAY),
    used_at: null,
  });
  const mail = composeMail({
    subject,
    greeting: `Dear ${story.contactName},`,
    paragraphs,
    link: { label, url: `${origin}/claim/${story.reference}/open?key=${secret}` },
    signature: [SELLER.name, SELLER.phone],
  });
  tables.add("outgoing_mail", {
    id: random.uuid(),
    once_key: `demo:${story.id}`,
    claim_id: story.id,
    to_name: story.contactName,
    to_address: story.contactEmail,
    ...mail,
    state: "sent",
    attempts: 1,
    last_error: null,
    created_at: isoInstant(at),
    sent_at: isoInstant(at + 20_000),
  });
}
