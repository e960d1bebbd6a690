import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { FALSE_DISCOVERY_RATE, FEWEST_CLAIMS_OF_A_SIGNAL, findSignals } from "@/lib/domain/reporting/signals";
import { effectOf } from "@/lib/domain/reporting/signals-effect";
import { type LookMatter, reckonLook } from "@/lib/domain/reporting/signals-look";
import { signalInWords } from "@/lib/domain/reporting/signals-sentence";
import { FALSE_ALARM_IN_LOOKS, watchCell } from "@/lib/domain/reporting/signals-watch";
import { type ClaimsFiled, monthNumber, monthOfNumber, type ShippedAndClaimed, type UnitsShipped } from "@/lib/domain/reporting/signals-world";
import { reckonInThread } from "@/lib/jobs/reckon-in-thread";

const KITS = ["K1", "K2", "K3", "K4", "K5"] as const;
const VEHICLES = ["V1", "V2", "V3"] as const;
const MONTHS = Array.from({ length: 18 }, (_, place) => monthOfNumber(monthNumber("2025-07") + place));
const TODAY = "2026-12-31";

interface Line {
  kit: string;
  vehicle: string;
  month: string;
}

/** Every kit on every vehicle, a hundred a month, in two revisions, with claims two months after shipping as told. */
function sales(claimsOf: (line: Line) => Partial<Record<string, number>>): ShippedAndClaimed {
  const shipped: UnitsShipped[] = [];
  const claims: ClaimsFiled[] = [];
  for (const kit of KITS)
    for (const vehicle of VEHICLES)
      for (const month of MONTHS) {
        const line = { kitId: kit, kitRevisionId: `${kit}${month < "2026-01" ? "A" : "B"}`, vehicleId: vehicle, batch: null, month };
        shipped.push({ ...line, units: 100 });
        const filed = monthOfNumber(monthNumber(month) + 2);
        for (const [cause, count] of Object.entries(claimsOf({ kit, vehicle, month }))) if (count) claims.push({ ...line, filed, cause, claims: count });
      }
  return { shipped, claims, today: TODAY };
}

/** Some of each cause everywhere, never quite alike. */
const usual = ({ kit, vehicle, month }: Line) => {
  const turn = (monthNumber(month) + 2 * KITS.indexOf(kit as "K1") + VEHICLES.indexOf(vehicle as "V1")) % 3;
  return { C01: turn === 0 ? 2 : turn === 1 ? 1 : 0, C15: turn === 2 ? 1 : 0 };
};
const isFaulty = ({ kit, vehicle, month }: Line) => kit === "K2" && vehicle === "V3" && month >= "2026-01";
const withAFault = sales((line) => ({ ...usual(line), ...(isFaulty(line) ? { C01: 4 } : {}) }));

describe("the list of signals", () => {
  it("is empty where every kit goes as the others do", () => {
    const { signals, lookedAt } = findSignals(sales(usual));
    expect(signals).toEqual([]);
    expect(lookedAt).toBeGreaterThan(100);
  });

  it.each([3, 8, 40])("tells a cause that came with one part of the sales and never before, from %i claims on", (count) => {
    const isNew = ({ kit, vehicle, month }: Line) => kit === "K2" && vehicle === "V3" && month === "2026-03";
    const { signals } = findSignals(sales((line) => ({ ...usual(line), ...(isNew(line) ? { C16: count } : {}) })));
    expect(signals.map(({ cause, claims, scope }) => ({ cause, claims, vehicleId: scope.vehicleId, kitId: scope.kitId }))).toEqual([{ cause: "C16", claims: count, vehicleId: "V3", kitId: "K2" }]);
    expect(signals[0]?.expected).toBeGreaterThan(0);
  });

  it("tells claims that come sooner than any came before", () => {
    const { shipped, claims, today } = sales(usual);
    const batch = { kitId: "K2", kitRevisionId: "K2B", vehicleId: "V3", batch: "B-2612", month: "2026-12" };
    const { signals } = findSignals({ shipped: [...shipped, { ...batch, units: 50 }], claims: [...claims, { ...batch, filed: "2026-12", cause: "C15", claims: 6 }], today });
    expect(signals).toMatchObject([{ cause: "C15", claims: 6, scope: { batch: "B-2612" } }]);
  });

  it("tells a fault once, under the part of the sales that explains it, with its exposure", () => {
    const { signals } = findSignals(withAFault);
    expect(signals).toHaveLength(1);
    const [signal] = signals;
    expect(signal).toMatchObject({ cause: "C01", claims: 40, unitsShipped: 1200, since: "2026-01", scope: { kitId: "K2", kitRevisionId: "K2B", vehicleId: "V3", batch: null } });
    expect(signal?.expected).toBeGreaterThan(7);
    expect(signal?.expected).toBeLessThan(13);
    expect(signal?.ratio.lower).toBeGreaterThan(2);
    expect(signal?.falseDiscoveryRate).toBeLessThan(FALSE_DISCOVERY_RATE / 100);
    expect(signal?.unitMonthsInService).toBeGreaterThan(1200);
    expect(signal?.alsoSeenIn.length).toBeGreaterThan(0);
  });

  it("names a batch that goes through several kits", () => {
    const { shipped, claims, today } = sales(usual);
    const batch = { month: "2026-03", batch: "B7" };
    const inKits = (["K1", "K2", "K3"] as const).map((kit) => ({ kitId: kit, kitRevisionId: `${kit}B`, vehicleId: "V1", ...batch }));
    const { signals } = findSignals({
      shipped: [...shipped, ...inKits.map((line) => ({ ...line, units: 60 }))],
      claims: [...claims, ...inKits.map((line) => ({ ...line, filed: "2026-05", cause: "C15", claims: 4 }))],
      today,
    });
    expect(signals.map(({ cause, scope }) => [cause, scope.batch])).toEqual([["C15", "B7"]]);
  });

  it("does not blame the kit that sells most before winter for the frost", () => {
    const frost = ({ kit, month }: Line) => (["2025-10", "2025-11", "2025-12"].includes(month) ? { C07: kit === "K5" ? 9 : 1 } : {});
    const { shipped, claims, today } = sales((line) => ({ ...usual(line), ...frost(line) }));
    const before = shipped.map((line) => (line.kitId === "K5" && ["2025-10", "2025-11", "2025-12"].includes(line.month) ? { ...line, units: 900 } : line));
    expect(findSignals({ shipped: before, claims, today }).signals.filter(({ cause }) => cause === "C07")).toEqual([]);
    // The same claims on as many units as elsewhere are a fault.
    expect(findSignals({ shipped, claims, today }).signals.some(({ cause, scope }) => cause === "C07" && scope.kitId === "K5")).toBe(true);
  });

  it("expects less of months not yet decided, everywhere alike", () => {
    const undecided = withAFault.claims.map((line) => (line.filed >= "2026-10" ? { ...line, cause: null } : line));
    expect(findSignals({ ...withAFault, claims: undecided }).signals.map(({ cause, scope }) => [cause, scope.kitId])).toEqual([["C01", "K2"]]);
  });

  it("shares out units whose vehicle is not known", () => {
    const shipped = withAFault.shipped.flatMap((line) => [{ ...line, units: 70 }, { ...line, vehicleId: null, units: 30 }]);
    expect(findSignals({ ...withAFault, shipped }).signals[0]?.unitsShipped).toBeCloseTo(1200, 6);
  });

  it("calls nothing a signal without three claims, nor without claims at all", () => {
    const { shipped, today } = withAFault;
    const line = { kitId: "K1", kitRevisionId: "K1B", vehicleId: "V1", batch: null, month: "2026-02", filed: "2026-03", cause: "C22" };
    expect(findSignals({ shipped, claims: [{ ...line, claims: FEWEST_CLAIMS_OF_A_SIGNAL - 1 }], today }).signals).toEqual([]);
    expect(findSignals({ shipped, claims: [], today })).toEqual({ signals: [], lookedAt: 0 });
    expect(findSignals({ shipped: [], claims: [{ ...line, claims: 9 }], today }).signals).toEqual([]);
  });

  it("stays within numbers for whatever was shipped and claimed", () => {
    const place = { kitId: fc.constantFrom("K1", "K2"), vehicleId: fc.constantFrom("V1", null), batch: fc.constantFrom("B1", null), month: fc.constantFrom(...MONTHS.slice(-4), "2027-05") };
    const shipped = fc.array(fc.record({ ...place, units: fc.constantFrom(0, 1, 5, 100_000) }), { maxLength: 8 });
    const claims = fc.array(fc.record({ ...place, filed: fc.constantFrom(...MONTHS.slice(-4), "2027-06"), cause: fc.constantFrom("C01", "C15", null), claims: fc.constantFrom(1, 3, 40, 100_000) }), { maxLength: 8 });
    const ofRevision = <T extends { kitId: string }>(line: T) => ({ ...line, kitRevisionId: `${line.kitId}A` });
    fc.assert(
      fc.property(shipped, claims, (units, filed) => {
        for (const { ratio, expected, unitsShipped, unitMonthsInService, since } of findSignals({ shipped: units.map(ofRevision), claims: filed.map(ofRevision), today: TODAY }).signals) {
          for (const figure of [ratio.ratio, ratio.lower, ratio.upper, expected, unitsShipped, unitMonthsInService]) expect(Number.isFinite(figure)).toBe(true);
          expect(since).toMatch(/^\d{4}-\d\d$/);
        }
      }),
    );
  });
});

describe("a signal in words", () => {
  const catalogue: ReportCatalogue = {
    kits: [{ id: "K2", code: "K-2", name: "Second kit", revisions: [{ id: "K2B", revision: "B", introducedOn: "2026-01-01", change: "" }], vehicleIds: ["V3"] }],
    vehicles: [{ id: "V3", make: "Make", model: "Model", engine: "3.0" }],
  };

  it("says what, how much, how sure, from how many, of how many, since when", () => {
    const [signal] = findSignals(withAFault).signals;
    if (!signal) throw new Error("there is a signal");
    expect(signalInWords(signal, catalogue, "Drain runs level, rises or sags")).toMatch(
      /^K-2 rev B on Make Model 3\.0: drain runs level, rises or sags, \d\.\d times the expected, 90 % interval \d\.\d to \d\.\d, from 40 claims on 1,200 shipped since January 2026$/,
    );
  });
});

describe("a watched cell", () => {
  const scope = { kitId: "K2", kitRevisionId: null, vehicleId: "V3", batch: null, shippedFrom: null };
  const watchIn = (today: string) =>
    watchCell({ shipped: withAFault.shipped.filter(({ month }) => month <= today.slice(0, 7)), claims: withAFault.claims.filter(({ filed }) => filed <= today.slice(0, 7)), today }, { scope, cause: "C01", from: "2025-10" });

  it("signals some months after units with a fault began to ship, and tells since when", () => {
    expect(watchIn("2026-02-28")?.signalled).toBeNull();
    const watch = watchIn("2026-05-31");
    expect(watch?.signalled).toBe("2026-05");
    // Since January; the usual claims about the month before may count in.
    expect(["2025-12", "2026-01"]).toContain(watch?.likelyStart);
    expect(watch?.months.find(({ month }) => month === "2026-01")).toMatchObject({ claims: 4 });
    expect(watch?.chance).toBeLessThan(1 / FALSE_ALARM_IN_LOOKS);
  });

  it("does not take claims still coming in about older units for a rise", () => {
    const { shipped, claims, today } = sales(usual);
    const late = ["2025-07", "2025-08", "2025-09"].map((month) => ({ kitId: "K2", kitRevisionId: "K2A", vehicleId: "V3", batch: null, month, filed: "2026-11", cause: "C01", claims: 4 }));
    expect(watchCell({ shipped, claims: [...claims, ...late], today }, { scope, cause: "C01", from: "2025-10" })?.signalled).toBeNull();
  });

  it("signals a cause that came with this part alone", () => {
    const watch = watchCell(sales((line) => ({ ...usual(line), ...(isFaulty(line) ? { C16: 1 } : {}) })), { scope, cause: "C16", from: "2025-10" });
    expect(watch?.signalled).toBe("2026-12");
    expect(watch?.likelyStart).toBe("2026-01");
  });

  it("stays quiet where nothing changed, and says nothing of a cause or kit never seen", () => {
    expect(watchCell(sales(usual), { scope, cause: "C01", from: "2025-10" })?.signalled).toBeNull();
    expect(watchCell(withAFault, { scope, cause: "C20", from: "2025-10" })).toBeNull();
    expect(watchCell(withAFault, { scope: { ...scope, kitId: "K9" }, cause: "C01", from: "2025-10" })).toBeNull();
  });
});

describe("the effect of a change", () => {
  const scope = { kitId: "K2", kitRevisionId: null, vehicleId: "V3", batch: null, shippedFrom: null };
  const mended = sales((line) => ({ ...usual(line), ...(isFaulty(line) && line.month < "2026-07" ? { C01: 5 } : {}) }));

  it("compares what was shipped with it against what was shipped before, each by what is usual at its age", () => {
    const effect = effectOf(mended, { scope, cause: "C01", changed: { shippedFrom: "2026-07" } });
    expect(effect.kind).toBe("compared");
    if (effect.kind !== "compared") return;
    expect(effect.before).toMatchObject({ claims: 36, unitsShipped: 1200 });
    expect(effect.after.claims).toBeLessThan(8);
    expect(effect.ratio.upper === "infinite" || effect.ratio.upper < 1).toBe(true);
    expect(effect.avoided).toBeGreaterThan(3);
  });

  it("compares so too where nothing else has ever had the cause", () => {
    const ended = sales((line) => ({ ...usual(line), ...(isFaulty(line) && line.month < "2026-07" ? { C16: 2 } : {}) }));
    expect(effectOf(ended, { scope: { ...scope, kitRevisionId: "K2B" }, cause: "C16", changed: { shippedFrom: "2026-07" } })).toMatchObject({
      kind: "compared",
      before: { claims: 12, unitsShipped: 600 },
      after: { claims: 0, unitsShipped: 600 },
      avoided: expect.closeTo(8, 0),
    });
  });

  it("finds none where young units have merely had no time yet", () => {
    const effect = effectOf(withAFault, { scope: { ...scope, kitRevisionId: "K2B" }, cause: "C01", changed: { shippedFrom: "2026-09" } });
    expect(effect.kind).toBe("compared");
    if (effect.kind === "compared") expect(effect.ratio.lower < 1 && (effect.ratio.upper === "infinite" || effect.ratio.upper > 1)).toBe(true);
  });

  it("says what is missing where there is nothing to compare", () => {
    expect(effectOf(mended, { scope, cause: "C01", changed: { shippedFrom: "2027-02" } }).kind).toBe("nothing-shipped-since");
    expect(effectOf(mended, { scope, cause: "C01", changed: { shippedFrom: "2020-01" } }).kind).toBe("nothing-shipped-before");
    expect(effectOf(mended, { scope, cause: "C20", changed: { kitRevisionId: "K2B" } }).kind).toBe("no-claims-on-either-side");
  });
});

describe("a look in a thread of its own", () => {
  it("finds what it finds here, and which signal is watched", async () => {
    const changed = { shippedFrom: "2026-06" };
    const matter: LookMatter = { sales: withAFault, changes: [{ key: "a change", scope: { kitId: "K2", kitRevisionId: "K2B", vehicleId: "V3", batch: null, shippedFrom: null }, cause: "C01", changed }] };
    const there = await reckonInThread(matter);
    expect(there).toEqual(reckonLook(matter));
    expect(there.effects.get("a change")).toBeDefined();
    const [signal] = there.signals;
    expect(signal && there.watches.get(signal)).toMatchObject({ signalled: expect.anything() });
  });

  it("fails here when it fails there", async () => {
    await expect(reckonInThread({} as LookMatter)).rejects.toThrow();
  });
});
