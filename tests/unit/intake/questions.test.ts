import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { USUAL_STAKES } from "@/lib/domain/diagnosis/stakes";
import { type IntakeAnswers, type OilPlace, type Screen, SCREENS } from "@/lib/domain/intake/answers";
import { unitField } from "@/lib/domain/intake/fields";
import { type Basis, firstOpenScreen, mayShow, mostQuestionsAfter, screenAfter, screensBefore, screensToAsk, withTurn } from "@/lib/domain/intake/intake-path";
import { FINDINGS_ASKED, type IntakeState, type KnownPurchase, NOTHING_KNOWN, standingAnswers } from "@/lib/domain/intake/questions";
import { describeScreen } from "@/lib/domain/intake/screens";
import { sayIn } from "@/lib/messages/words";

const CHOICES = { kits: [{ id: "kit", name: "KH-110 kit" }], vehicles: [{ id: "vehicle", name: "Halvorn Carrow" }], items: [{ id: "item", name: "KH-110" }] };
const BASIS: Basis = { edition: edition1, stakes: USUAL_STAKES };
const FROM_ORDER: KnownPurchase = { ...NOTHING_KNOWN, kitId: "kit", vehicleId: "vehicle", fuel: "diesel", staging: "single", matchingShipments: 1 };

/** Every field of a screen filled in, the choices as chosen. */
function answered(screen: Screen, state: IntakeState, choose: (options: readonly string[], field: string) => string): Record<string, string> {
  const { fields } = describeScreen(screen, state, edition1, CHOICES, "2026-11-25", sayIn("en"));
  return Object.fromEntries(
    fields.flatMap((field) => {
      if (field.kind === "choice" || field.kind === "select") return [[field.name, choose(field.options.map(({ value }) => value), field.name)]];
      return field.kind === "number" ? [[field.name, "12"], [unitField(field.name), "mm"]] : [[field.name, "words"]];
    }),
  );
}

/** What the answers have found of a purchase: nothing before it is looked for, nor where it was not found. */
function foundWith({ order, serial, kit }: IntakeAnswers, purchase: KnownPurchase): KnownPurchase {
  if (kit) return { ...purchase, vehicleId: null, matchingShipments: 0 };
  const looked = order ?? serial;
  return looked && looked.unmatched !== "yes" ? purchase : NOTHING_KNOWN;
}

/** Goes through an intake, choosing with `choose`, until nothing is open; the screens as they came. */
function walk(purchase: KnownPurchase, choose: (screen: Screen, field: string, options: readonly string[]) => string) {
  const screens: Screen[] = [];
  const promised: number[] = [];
  let state: IntakeState = { answers: {}, purchase: NOTHING_KNOWN };
  for (let screen = firstOpenScreen(state, BASIS); screen; screen = firstOpenScreen(state, BASIS)) {
    screens.push(screen);
    promised.push(mostQuestionsAfter(screen, state, BASIS));
    const looked = ["order", "serial"].includes(screen) ? choose(screen, "unmatched", ["no", "yes"]) : "";
    const values = { ...answered(screen, state, (options, field) => choose(screen, field, options)), ...(looked === "yes" ? { unmatched: "yes" } : {}) };
    const answers: IntakeAnswers = { ...state.answers, [screen]: withTurn(screen, values, state.answers) };
    state = { answers, purchase: foundWith(answers, purchase) };
  }
  return { screens, promised, state };
}

const owner = (place: OilPlace, more: Record<string, string> = {}) => (_screen: Screen, field: string, options: readonly string[]) =>
  more[field] ?? { who: "owner", by: "order", place, F24: "open-air" }[field] ?? options[0] ?? "";

describe("the questions of an intake", () => {
  test("are at most fourteen for an owner with an order, wherever the oil is", () => {
    for (const place of ["turbine", "compressor", "both", "outside", "unseen"] as const) {
      const { screens } = walk(FROM_ORDER, owner(place));
      if (place === "turbine" || place === "compressor" || place === "outside") expect(screens.length, `${place}: ${screens.join(" ")}`).toBeLessThanOrEqual(14);
      else expect(screens.length, `${place}: ${screens.join(" ")}`).toBeLessThanOrEqual(15);
    }
  });

  test("are at most twenty-four on the longest way, and never more than was said", () => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat()), fc.constantFrom(FROM_ORDER, NOTHING_KNOWN, { ...FROM_ORDER, matchingShipments: 3, vehicleId: null, staging: null }), (picks, purchase) => {
        const { screens, promised, state } = walk(purchase, (_screen, _field, options) => options[picks.next().value % options.length] ?? "");
        expect(screens.length).toBeLessThanOrEqual(24);
        promised.forEach((most, index) => {
          expect(most).toBeGreaterThanOrEqual(screens.length - index - 1);
          if (index > 0) expect(most, screens.join(" ")).toBeLessThan(promised[index - 1] ?? 0);
        });
        // Nor on the same way gone over once more.
        expect(screensToAsk(state, BASIS).map((screen) => mostQuestionsAfter(screen, state, BASIS))).toEqual(promised);
      }),
      { numRuns: 20 },
    );
  });

  test("never go round in circles, lose no answer and keep their order, whatever is changed on the way", () => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat()), (picks) => {
        const pick = <T>(list: readonly T[]): T | undefined => list[picks.next().value % list.length];
        const { state: walked } = walk(FROM_ORDER, (_screen, _field, options) => pick(options) ?? "");
        let state = walked;
        for (let change = 0; change < 3; change += 1) {
          const screen = pick(Object.keys(state.answers) as Screen[]) ?? "oil";
          const before = screensToAsk(state, BASIS).filter((one) => state.answers[one]);
          state = { ...state, answers: { ...state.answers, [screen]: withTurn(screen, answered(screen, state, (options) => pick(options) ?? ""), state.answers) } };
          for (const [other, values] of Object.entries(walked.answers)) if (other !== screen && change === 0) expect(state.answers[other as Screen]).toEqual(values);
          const after = screensToAsk(state, BASIS).filter((one) => state.answers[one]);
          expect(after.filter((one) => before.includes(one))).toEqual(before.filter((one) => after.includes(one)));
          let steps = 0;
          for (let open = firstOpenScreen(state, BASIS); open; open = firstOpenScreen(state, BASIS)) {
            expect(mayShow(open, state, BASIS)).toBe(true);
            steps += 1;
            expect(steps).toBeLessThan(SCREENS.length);
            state = { ...state, answers: { ...state.answers, [open]: withTurn(open, answered(open, state, (options) => pick(options) ?? ""), state.answers) } };
          }
        }
      }),
      { numRuns: 10 },
    );
  });

  test("are asked only while the answer is worth it: a drain seen to sag leaves the vent's element unasked", () => {
    const sagging = walk(FROM_ORDER, owner("turbine", { F12: "present", F24: "open-air" })).screens;
    const falling = walk(FROM_ORDER, owner("turbine", { F12: "absent", F24: "open-air" })).screens;
    expect(sagging).not.toContain("vent-element");
    expect(falling).toContain("vent-element");
    expect(falling.length).toBeGreaterThan(sagging.length);
    for (const screens of [sagging, falling]) expect(screens).not.toContain("filter");
  });

  test("always ask where the oil is and how much, and never twice", () => {
    for (const place of ["turbine", "compressor", "both", "outside", "unseen"] as const) {
      const { screens } = walk(FROM_ORDER, owner(place));
      expect(screens).toContain("oil");
      expect(screens).toContain("amount");
      expect(new Set(screens).size).toBe(screens.length);
    }
  });

  test("go on with a draft whose edition was changed meanwhile, and keep what it answered", () => {
    const { state } = walk(FROM_ORDER, owner("turbine", { F12: "absent" }));
    const findings = edition1.findings.flatMap((one) => (one.code === "F12" ? [] : one.code === "F24" ? [{ ...one, options: one.options.filter(({ value }) => value !== "open-air") }] : [one]));
    const basis: Basis = { ...BASIS, edition: { ...edition1, findings, samePhysicalFact: [] } };
    expect(screensToAsk(state, basis)).not.toContain("drain");
    expect(mayShow("drain", state, basis)).toBe(false);
    expect(screensToAsk(state, basis)).toEqual(expect.arrayContaining(["oil", "vent", "contact"]));
    // A draft from before the order was kept has no turns: the screens stand as they are listed.
    const old: IntakeState = { ...state, answers: { ...state.answers, drain: { F12: "absent" }, since: { F07: "later" } } };
    expect(screensToAsk(old, BASIS).indexOf("since")).toBeLessThan(screensToAsk(old, BASIS).indexOf("drain"));
  });

  test("lead back the way they came", () => {
    const { screens, state } = walk(NOTHING_KNOWN, owner("both", { by: "kit" }));
    for (const [index, screen] of screens.entries()) {
      expect(mayShow(screen, state, BASIS)).toBe(true);
      expect(screensBefore(screen, state, BASIS)).toEqual(screens.slice(0, index));
      expect(screenAfter(screen, state, BASIS)).toBe(screens[index + 1] ?? null);
    }
  });

  test("do not run ahead of what is answered", () => {
    expect(mayShow("contact", { answers: { who: { who: "owner" } }, purchase: NOTHING_KNOWN }, BASIS)).toBe(false);
    expect(mayShow("who", { answers: {}, purchase: NOTHING_KNOWN }, BASIS)).toBe(true);
  });

  test("never ask what the order has told", () => {
    const { screens } = walk(FROM_ORDER, owner("both"));
    expect(screens).not.toContain("vehicle");
    expect(screens).not.toContain("kit");
    expect(screens).not.toContain("two-stage");
  });

  test("ask an owner for no measurement", () => {
    for (const place of ["turbine", "both"] as const) expect(walk(NOTHING_KNOWN, owner(place)).screens).not.toContain("drain-size");
  });

  test("ask for the kit when an order or a serial was not found", () => {
    const notFound: IntakeState = { answers: { who: { who: "owner" }, purchase: { by: "serial" }, serial: { serial: "X", unmatched: "yes" } }, purchase: NOTHING_KNOWN };
    expect(firstOpenScreen(notFound, BASIS)).toBe("kit");
  });

  test("ask what is in the vent only where it does not lead into the intake", () => {
    expect(walk(FROM_ORDER, owner("turbine", { F24: "intake" })).screens).not.toContain("vent-element");
    expect(walk(FROM_ORDER, owner("turbine", { F12: "absent", F24: "catch-can" })).screens).toContain("vent-element");
  });

  test("drop answers that a changed answer leaves behind, and take them back with it", () => {
    const { state } = walk(FROM_ORDER, owner("turbine", { F24: "open-air" }));
    const changed: IntakeState = { ...state, answers: { ...state.answers, vent: { F24: "intake" }, "vent-element": { F25: "present" } } };
    expect(standingAnswers(changed, edition1).amount).toBeDefined();
    expect(standingAnswers(changed, edition1)["vent-element"]).toBeUndefined();
    expect(screensToAsk(changed, BASIS)).not.toContain("vent-element");
    const back: IntakeState = { ...changed, answers: { ...changed.answers, vent: { F24: "open-air" } } };
    expect(standingAnswers(back, edition1)["vent-element"]).toEqual({ F25: "present" });
  });

  test("each name findings that this observer may answer, in the words of the edition", () => {
    for (const screen of SCREENS) {
      for (const code of FINDINGS_ASKED[screen] ?? []) {
        const finding = edition1.findings.find((known) => known.code === code);
        expect(finding, code).toBeDefined();
        expect(finding?.observers).toContain(["drain-size", "vent-hose"].includes(screen) ? "technician" : "customer");
      }
    }
  });
});
