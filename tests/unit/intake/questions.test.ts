import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { type IntakeAnswers, type OilPlace, type Screen, SCREENS } from "@/lib/domain/intake/answers";
import { unitField } from "@/lib/domain/intake/fields";
import {
  FINDINGS_ASKED,
  firstOpenScreen,
  type IntakeState,
  type KnownPurchase,
  mayShow,
  mostQuestionsAfter,
  NOTHING_KNOWN,
  screenAfter,
  screenBefore,
  screensToAsk,
  standingAnswers,
} from "@/lib/domain/intake/questions";
import { describeScreen } from "@/lib/domain/intake/screens";

const CHOICES = { kits: [{ id: "kit", name: "KH-110 kit" }], vehicles: [{ id: "vehicle", name: "Halvorn Carrow" }], items: [{ id: "item", name: "KH-110" }] };
const FROM_ORDER: KnownPurchase = { kitId: "kit", vehicleId: "vehicle", fuel: "diesel", staging: "single", matchingShipments: 1 };

/** Goes through an intake, choosing with `choose`, until nothing is open; the screens as they came. */
function walk(purchase: KnownPurchase, choose: (screen: Screen, field: string, options: readonly string[]) => string) {
  const screens: Screen[] = [];
  const promised: number[] = [];
  let state: IntakeState = { answers: {}, purchase: NOTHING_KNOWN };
  for (let screen = firstOpenScreen(state); screen; screen = firstOpenScreen(state)) {
    screens.push(screen);
    promised.push(mostQuestionsAfter(screen, state));
    const { fields } = describeScreen(screen, state, edition1, CHOICES, "2026-11-25");
    const typed = fields.flatMap((field) => {
      if (field.kind === "choice" || field.kind === "select") return [[field.name, choose(screen, field.name, field.options.map(({ value }) => value))]];
      return field.kind === "number" ? [[field.name, "12"], [unitField(field.name), "mm"]] : [[field.name, "words"]];
    });
    const answers: IntakeAnswers = { ...state.answers, [screen]: Object.fromEntries(typed) };
    state = { answers, purchase: answers.purchase ? purchase : NOTHING_KNOWN };
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
        const { screens, promised } = walk(purchase, (_screen, _field, options) => options[picks.next().value % options.length] ?? "");
        expect(screens.length).toBeLessThanOrEqual(24);
        promised.forEach((most, index) => {
          expect(most).toBeGreaterThanOrEqual(screens.length - index - 1);
        });
      }),
    );
  });

  test("lead back the way they came", () => {
    const { screens, state } = walk(NOTHING_KNOWN, owner("both", { by: "kit" }));
    for (const [index, screen] of screens.entries()) {
      expect(mayShow(screen, state)).toBe(true);
      expect(screenBefore(screen, state)).toBe(screens[index - 1] ?? null);
      expect(screenAfter(screen, state)).toBe(screens[index + 1] ?? null);
    }
  });

  test("do not run ahead of what is answered", () => {
    expect(mayShow("contact", { answers: { who: { who: "owner" } }, purchase: NOTHING_KNOWN })).toBe(false);
    expect(mayShow("who", { answers: {}, purchase: NOTHING_KNOWN })).toBe(true);
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
    expect(firstOpenScreen(notFound)).toBe("kit");
  });

  test("ask what is in the vent only where it does not lead into the intake", () => {
    expect(walk(FROM_ORDER, owner("turbine", { F24: "intake" })).screens).not.toContain("vent-element");
    expect(walk(FROM_ORDER, owner("turbine", { F24: "catch-can" })).screens).toContain("vent-element");
  });

  test("drop answers on screens that a changed answer leaves behind", () => {
    const { state } = walk(FROM_ORDER, owner("compressor"));
    const changed: IntakeState = { ...state, answers: { ...state.answers, oil: { place: "outside", elsewhere: "dry" } } };
    expect(standingAnswers(changed).filter).toBeUndefined();
    expect(standingAnswers(changed).amount).toBeDefined();
    expect(screensToAsk(changed)).not.toContain("filter");
  });

  test("each name findings that this observer may answer, in the words of the edition", () => {
    for (const screen of SCREENS) {
      for (const code of FINDINGS_ASKED[screen] ?? []) {
        const finding = edition1.findings.find((known) => known.code === code);
        expect(finding, code).toBeDefined();
        expect(finding?.observers).toContain(screen === "drain-size" ? "technician" : "customer");
      }
    }
  });
});
