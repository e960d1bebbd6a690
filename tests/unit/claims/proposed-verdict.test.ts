import { describe, expect, test } from "vitest";
import { attributionOf, openBeforeRemedy, proposeVerdict } from "@/lib/domain/claims/proposed-verdict";
import { REMEDIES } from "@/lib/domain/claims/remedies";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { NO_CONTEXT } from "@/lib/domain/diagnosis/experience";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";

const LEVEL_DRAIN: readonly Observation[] = [
  { finding: "F01", observer: "customer", answer: "present" },
  { finding: "F12", observer: "customer", answer: "present" },
];
const NO_PHOTOS = { hasPhotos: false, seenOnPhotos: new Set<string>() };
const PHOTOS = { ...NO_PHOTOS, hasPhotos: true };
const SEAL_RING = { attribution: "unit", remedy: "replacement", basis: "technician" } as const;

/** Everything about the oil's way out was looked at, and nothing was there. */
const WAY_OUT_IS_FREE: readonly Observation[] = edition1.findings
  .filter(({ part, kind, observers }) => ["drain", "crankcase", "vent"].includes(part) && kind === "sign" && observers.includes("technician"))
  .map(({ code }) => ({ finding: code, observer: "technician", answer: "absent" }));

describe("the verdict a ranking speaks for", () => {
  test("names its leader, on the word of whoever looked best", () => {
    const ranking = rankCauses(LEVEL_DRAIN, edition1);
    expect(proposeVerdict(ranking, LEVEL_DRAIN, NO_PHOTOS)).toEqual({ primaryCause: "C01", contributingCauses: [], basis: "customer_word" });
    expect(proposeVerdict(ranking, LEVEL_DRAIN, PHOTOS).basis).toBe("photo");
    expect(proposeVerdict(ranking, [...LEVEL_DRAIN, { finding: "F41", observer: "bench", measured: 0.07 }], PHOTOS).basis).toBe("bench");
  });

  test("rests on a technician only where one looked at the thing itself", () => {
    const looked: readonly Observation[] = [...LEVEL_DRAIN, { finding: "F12", observer: "technician", answer: "present" }];
    expect(proposeVerdict(null, looked, NO_PHOTOS).basis).toBe("technician");
    expect(proposeVerdict(null, looked, { ...NO_PHOTOS, seenOnPhotos: new Set(["F12"]) }).basis).toBe("photo");
  });

  test("names nothing where there is no ranking, or it contradicts itself", () => {
    expect(proposeVerdict(null, [], NO_PHOTOS).primaryCause).toBeNull();
    expect(proposeVerdict({ outcome: "contradiction", edition: 1, context: NO_CONTEXT, stopEngine: null }, [], NO_PHOTOS).primaryCause).toBeNull();
  });
});

describe("whom a cause lies with", () => {
  const drain = edition1.causes.find(({ code }) => code === "C01");
  const blowBy = edition1.causes.find(({ code }) => code === "C08");
  test("is the kit or the fitting only where the cause leaves that open", () => {
    if (!drain || !blowBy) throw new Error("edition 1 has both");
    expect(attributionOf(drain, "kit")).toBe("kit");
    expect(attributionOf(drain, "fitter")).toBe("fit");
    expect(attributionOf(drain, "not_known")).toBe("fit");
    expect(attributionOf(blowBy, "kit")).toBe("engine");
  });
});

describe("before a unit is treated as defective", () => {
  test("drain and crankcase are looked into", () => {
    const open = openBeforeRemedy(SEAL_RING, [], edition1);
    expect(open.map(({ cause }) => cause)).toContain("C01");
    expect(open.every(({ settledBy }) => settledBy.length > 0)).toBe(true);
  });

  test("a bench inspection answers for all", () => {
    expect(openBeforeRemedy({ ...SEAL_RING, basis: "bench" }, [], edition1)).toEqual([]);
  });

  test("nothing is open once somebody has looked", () => {
    expect(openBeforeRemedy(SEAL_RING, WAY_OUT_IS_FREE, edition1)).toEqual([]);
  });

  test("only what costs a unit is held up", () => {
    const held = REMEDIES.filter((remedy) => openBeforeRemedy({ ...SEAL_RING, remedy }, [], edition1).length > 0);
    expect(held).toEqual(["repair", "replacement", "refund"]);
    expect(openBeforeRemedy({ ...SEAL_RING, attribution: "kit" }, [], edition1)).toEqual([]);
  });
});
