import { describe, expect, it } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { Edition, Figure, SignFinding } from "@/lib/domain/diagnosis/knowledge";
import { beforeLearning } from "@/lib/domain/learning/before-learning";
import { MOST_ODDS_FACTOR } from "@/lib/domain/learning/bounded-move";
import { movedFigures } from "@/lib/domain/learning/moved-figures";
import { learnedEdition, proposeLearnedEdition } from "@/lib/domain/learning/propose-learned-edition";
import type { Confirmation, Exposure, TrainingExample } from "@/lib/domain/learning/training-example";
import { chanceWith, countVerdict, sitesOf, startCounts } from "@/lib/domain/learning/verdict-counts";
import { editionSchema } from "@/lib/inputs/edition";
import { Random } from "../../../seed/random";

function anExample(over: Partial<TrainingExample> = {}): TrainingExample {
  return { confirmation: "technician", confirmedAt: new Date("2026-03-01"), primary: "C01", contributing: [], kit: "K1", vehicle: "V1", firstContact: [], later: [], ...over };
}

const many = (count: number, over: Partial<TrainingExample> = {}) => Array.from({ length: count }, () => anExample(over));
const baseOf = (edition: Edition, code: string) => edition.causes.find((cause) => cause.code === code)?.base.value ?? Number.NaN;
const findingOf = (edition: Edition, code: string) => edition.findings.find((finding) => finding.code === code) as SignFinding;
const linkOf = (edition: Edition, finding: string, cause: string) => findingOf(edition, finding).links.find((link) => link.cause === cause)?.strength as Record<"customer" | "technician" | "bench", Figure>;

/** Shipped so many that the edition's own figures would bring about one verdict on C01 for each of `count`. */
function exposureOf(count: number, kits: readonly [string, string][] = [["K1", "V1"]]): Exposure {
  return { kits: kits.map(([kit, vehicle]) => ({ kit, vehicle, shipped: count / baseOf(edition1, "C01") / kits.length })), claims: count };
}

describe("a base figure", () => {
  it("moves little by few verdicts and much by many", () => {
    const shiftBy = (count: number) => baseOf(proposeLearnedEdition(many(count, { primary: "C05" }), exposureOf(count), edition1), "C05") / baseOf(edition1, "C05");
    const [few, some, lots] = [shiftBy(2), shiftBy(20), shiftBy(200)];
    expect(few).toBeGreaterThan(1);
    expect(some / few).toBeGreaterThan(1.3);
    expect(lots).toBeGreaterThan(some);
  });

  it("is not made larger by how its verdicts were confirmed, only surer", () => {
    const mixed = (confirmation: Confirmation) => [...many(300, { primary: "C15", confirmation }), ...many(300, { primary: "C01", confirmation: "customer_word" })];
    const [bench, word] = (["bench", "customer_word"] as const).map((confirmation) => proposeLearnedEdition(mixed(confirmation), exposureOf(600), edition1));
    // With as many verdicts as there are, the weights leave a few per cent between the two and not a factor of four.
    expect(baseOf(bench as Edition, "C15") / baseOf(word as Edition, "C15")).toBeGreaterThan(0.9);
    expect(baseOf(bench as Edition, "C15") / baseOf(word as Edition, "C15")).toBeLessThan(1.15);
  });

  it("moves by no more than the stated factor in one proposal, and says what was counted", () => {
    const learned = proposeLearnedEdition(many(4000, { primary: "C22" }), exposureOf(40), edition1);
    const odds = (p: number) => p / (1 - p);
    expect(odds(baseOf(learned, "C22")) / odds(baseOf(edition1, "C22"))).toBeCloseTo(MOST_ODDS_FACTOR, 6);
    expect(learned.causes.find(({ code }) => code === "C22")?.base.provenance).toMatchObject({ kind: "learned", counts: { hits: 4000 } });
  });

  it("stays what it is without a shipment to set verdicts against", () => {
    const learned = proposeLearnedEdition(many(30), { kits: [], claims: 30 }, edition1);
    expect(learned.causes.map(({ base }) => base)).toEqual(edition1.causes.map(({ base }) => base));
  });
});

describe("experience with a kit", () => {
  const kits: [string, string][] = ["K1", "K2", "K3", "K4", "K5", "K6"].map((kit) => [kit, "V1"]);
  const everyday = kits.flatMap(([kit]) => [...many(12, { kit, primary: "C01" }), ...many(12, { kit, primary: "C11" })]);

  it("is stated for the kit that shows a cause several times as often as others, and for no other", () => {
    const learned = proposeLearnedEdition([...everyday, ...many(36, { kit: "K1", primary: "C01" })], exposureOf(180, kits), edition1);
    const raised = learned.experience.filter(({ oddsRatio }) => oddsRatio.value > 1);
    expect(raised.map(({ kit, cause }) => `${kit} ${cause}`)).toEqual(["K1 C01"]);
    expect(raised[0]?.oddsRatio.value).toBeGreaterThan(1.5);
    expect(raised[0]?.oddsRatio.provenance).toMatchObject({ kind: "learned", counts: { hits: 48 } });
  });

  it("says nothing where all kits are alike", () => {
    expect(proposeLearnedEdition(everyday, exposureOf(144, kits), edition1).experience).toEqual([]);
  });

  it("does not repeat what the circumstances of its claims say", () => {
    // The vent of K1 is always changed, which by the edition makes C06 three times as likely.
    const told = (kit: string) => ({ kit, firstContact: [{ finding: "F08", observer: "customer" as const, answer: kit === "K1" ? "vent-sump-or-drain" : "nothing-else" }] });
    const verdicts = kits.flatMap(([kit]) => [...many(40, { ...told(kit), primary: "C12" }), ...many(kit === "K1" ? 50 : 10, { ...told(kit), primary: "C06" })]);
    const untold = verdicts.map((example) => ({ ...example, firstContact: [] }));
    const ratio = (examples: TrainingExample[]) => proposeLearnedEdition(examples, exposureOf(340, kits), edition1).experience.find(({ kit, cause }) => kit === "K1" && cause === "C06")?.oddsRatio.value ?? 1;
    expect(ratio(untold)).toBeGreaterThan(1.5);
    expect(ratio(verdicts)).toBeLessThan(1.3);
  });
});

describe("links and backgrounds", () => {
  it("come back from verdicts of a world that has them, though nobody complains of a dry unit", () => {
    // A world as edition 1 says, seen by an edition whose links to the turbine side are too low and to the cold side too high.
    const random = new Random(11);
    const sites = sitesOf(edition1.findings);
    const examples: TrainingExample[] = [];
    while (examples.length < 6000) {
      const primary = random.pick(["C01", "C11", "C15"]);
      const firstContact = sites.map((site) => ({ finding: site.code, observer: "customer" as const, answer: random.chance(chanceWith(site, "customer", (cause) => cause === primary)) ? "present" : "absent" }));
      if (firstContact.some(({ answer }) => answer === "present")) examples.push(anExample({ primary, firstContact, confirmation: "bench" }));
    }
    const wrong: Edition = {
      ...edition1,
      findings: edition1.findings.map((finding) =>
        finding.kind === "site" && finding.code !== "F05"
          ? { ...finding, links: finding.links.map((link) => ({ ...link, strength: { ...link.strength, customer: { ...link.strength.customer, value: Math.min(0.95, link.strength.customer.value * (finding.code === "F01" ? 0.7 : 1.3)) } } })) }
          : finding,
      ),
    };
    const learned = proposeLearnedEdition(examples, exposureOf(6000), wrong);
    for (const finding of ["F01", "F02"])
      for (const cause of ["C01", "C11", "C15"]) {
        const [truth, start, end] = [edition1, wrong, learned].map((edition) => linkOf(edition, finding, cause).customer.value) as [number, number, number];
        expect(Math.abs(end - truth), `${finding} ${cause}: ${start} to ${end}, truth ${truth}`).toBeLessThan(0.035);
      }
  });

  it("are learned for the observer who looked, and left alone on a handful of looks", () => {
    const looked = (count: number) => proposeLearnedEdition(many(count, { firstContact: [{ finding: "F12", observer: "customer", answer: "absent" }] }), exposureOf(count), edition1);
    expect(linkOf(looked(4), "F12", "C01")).toEqual(linkOf(edition1, "F12", "C01"));
    expect(linkOf(looked(60), "F12", "C01").customer.value).toBeLessThan(0.8 * linkOf(edition1, "F12", "C01").customer.value);
    expect(linkOf(looked(60), "F12", "C01").technician).toEqual(linkOf(edition1, "F12", "C01").technician);
  });

  it("weigh a check that was asked for below what the claim was filed with", () => {
    const look = [{ finding: "F12", observer: "customer" as const, answer: "absent" }];
    const [first, later] = [{ firstContact: look }, { later: look }].map((found) => linkOf(proposeLearnedEdition(many(8, found), exposureOf(8), edition1), "F12", "C01").customer.value);
    expect(first).toBeLessThan(later ?? 0);
  });
});

describe("a learned edition", () => {
  const random = new Random(4);
  const examples = Array.from({ length: 300 }, (_, place) =>
    anExample({
      confirmedAt: new Date(Date.UTC(2026, 0, 1 + (place % 200))),
      primary: random.pick(["C01", "C03", "C06", "C11", "C15", "C20"]),
      kit: random.pick(["K1", "K2"]),
      firstContact: [{ finding: "F01", observer: "customer", answer: random.pick(["present", "absent"]) }, { finding: "F12", observer: "customer", answer: random.pick(["present", "absent"]) }],
      later: random.chance(0.5) ? [{ finding: "F13", observer: "technician", measured: random.between(9, 22) }] : [],
    }),
  );
  const exposure = exposureOf(300, [["K1", "V1"], ["K2", "V1"]]);
  const learned = proposeLearnedEdition(examples, exposure, edition1);

  it("passes the schema of editions and names what it was learned from", () => {
    expect(editionSchema.safeParse(learned).success).toBe(true);
    expect(learned.name).toBe("Learned from 300 verdicts to 2026-07-19");
  });

  it("is the same however the verdicts are ordered, but for the last digits", () => {
    const reversed = proposeLearnedEdition(examples.toReversed(), exposure, edition1);
    for (const [place, { base }] of reversed.causes.entries()) expect(base.value).toBeCloseTo(learned.causes[place]?.base.value ?? Number.NaN, 10);
    expect(linkOf(reversed, "F12", "C01").customer.value).toBeCloseTo(linkOf(learned, "F12", "C01").customer.value, 8);
  });

  it("learned from again with the same verdicts only goes on to where they point, and then stays", () => {
    let now = learned;
    const chain = [edition1];
    for (let round = 0; round < 4; round++) {
      const counts = startCounts(beforeLearning(now, chain));
      for (const example of examples) countVerdict(counts, example);
      chain.unshift(now);
      now = learnedEdition(counts, exposure, now);
    }
    const again = chain[0] as Edition;
    expect(now.causes.map(({ base }) => base.value)).toEqual(again.causes.map(({ base }) => base.value));
    expect(now.experience).toEqual(again.experience);
  });

  it("passes over verdicts and answers that the edition does not know", () => {
    const odd = [...examples, anExample({ primary: "C99" }), anExample({ firstContact: [{ finding: "F99", observer: "customer", answer: "present" }, { finding: "F12", observer: "customer", answer: "perhaps" }] })];
    expect(proposeLearnedEdition(odd, exposure, edition1).name).toContain("301 verdicts");
  });

  it("lists what moves, the farthest first, with the reason", () => {
    const moved = movedFigures(edition1, learned);
    expect(moved.length).toBeGreaterThan(10);
    const distances = moved.map(({ factor }) => Math.round(100 * Math.abs(Math.log(factor))));
    expect(distances).toEqual(distances.toSorted((a, b) => b - a));
    expect(moved[0]?.why).toMatch(/verdicts naming it|looks with/);
  });
});
