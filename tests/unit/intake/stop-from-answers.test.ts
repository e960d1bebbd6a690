import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import type { IntakeAnswers, OilPlace } from "@/lib/domain/intake/answers";
import { type KnownPurchase, NOTHING_KNOWN } from "@/lib/domain/intake/questions";
import { stopFromAnswers } from "@/lib/domain/intake/stop-from-answers";

const DIESEL: KnownPurchase = { ...NOTHING_KNOWN, vehicleId: "vehicle", fuel: "diesel" };
const PETROL: KnownPurchase = { ...DIESEL, fuel: "petrol" };

function stop(place: OilPlace, purchase: KnownPurchase, more: IntakeAnswers = {}) {
  return stopFromAnswers({ answers: { who: { who: "owner" }, oil: { place, elsewhere: "dry" }, ...more }, purchase }, edition1)?.reason ?? null;
}

describe("the engine must stand still", () => {
  test("as soon as oil is told in the air side of a diesel, or of nobody knows what, until it is no more than a film", () => {
    expect(stop("compressor", DIESEL)).toBe("oil-in-intake-can-run-away");
    expect(stop("both", NOTHING_KNOWN, { vehicle: { vehicle: "other", fuel: "unknown" } })).toBe("oil-in-intake-can-run-away");
    expect(stop("compressor", DIESEL, { amount: { F04: "absent" } })).toBeNull();
    expect(stop("compressor", DIESEL, { amount: { F04: "unknown" } })).toBe("oil-in-intake-can-run-away");
    expect(stop("turbine", DIESEL)).toBeNull();
  });

  test("with a puddle at the hot side, whatever it burns", () => {
    expect(stop("turbine", DIESEL, { amount: { F04: "present" } })).toBe("oil-on-hot-parts");
    expect(stop("both", PETROL, { amount: { F04: "present" } })).toBe("oil-on-hot-parts");
  });

  test("not for a run-away of a petrol engine, told or of the catalogue", () => {
    expect(stop("compressor", PETROL)).toBeNull();
    expect(stop("compressor", NOTHING_KNOWN, { purchase: { by: "kit" }, vehicle: { vehicle: "other", fuel: "petrol" } })).toBeNull();
  });
});

test("an edition for petrol warns of no run-away, and is otherwise the same", () => {
  const petrol = editionForFuel(edition1, "petrol");
  expect(petrol.findings.flatMap(({ cautions }) => cautions)).not.toContain("S1");
  expect(petrol.findings.map(({ code }) => code)).toEqual(edition1.findings.map(({ code }) => code));
  for (const fuel of ["diesel", "unknown", undefined]) expect(editionForFuel(edition1, fuel)).toBe(edition1);
});
