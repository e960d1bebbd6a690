import { describe, expect, it } from "vitest";
import { emptyInWords, headline, looksInWords, rateInWords, surenessInWords } from "@/app/reports/signals/words";
import { ratioScale } from "@/app/reports/signals/ratio-mark";
import type { Signal } from "@/lib/domain/reporting/signals";
import { SIGNAL_ACTS, signalState } from "@/lib/domain/reporting/signals-acts";
import type { Effect } from "@/lib/domain/reporting/signals-effect";
import { effectInWords, effectVerdict, FEWEST_DUE } from "@/lib/domain/reporting/signals-effect-sentence";
import { continueSignals } from "@/lib/domain/reporting/signals-kept";
import type { SignalScope } from "@/lib/domain/reporting/signals-scopes";
import { rateRatio } from "@/lib/domain/statistics/rate-ratio";
import type { SignalKept, SignalsSheet } from "@/lib/operations/load-signals";

const NOWHERE: SignalScope = { kitId: null, kitRevisionId: null, vehicleId: null, batch: null, shippedFrom: null };
const wide = { ...NOWHERE, kitId: "K", vehicleId: "V" };
const narrow = { ...wide, kitRevisionId: "K-C" };

function aSignal(scope: SignalScope, more: Partial<Signal> = {}): Signal {
  return {
    scope,
    cause: "C01",
    claims: 23,
    expected: 5,
    ratio: { ratio: 4.1, lower: 2.6, upper: 6, weightOfFirst: 0.5 },
    falseDiscoveryRate: 0.01,
    unitsShipped: 1140,
    unitMonthsInService: 4000,
    since: "2026-05",
    alsoSeenIn: [],
    ...more,
  };
}
function aKept(more: Partial<SignalKept>): SignalKept {
  const figures = { ...aSignal(wide), shippedFrom: null };
  const at = new Date("2026-11-25T12:00:00Z");
  return { id: "1", scope: wide, cause: "C01", firstSeenAt: at, seenAt: at, standsOut: true, looks: 1, place: 1, firstFigures: figures, figures, watch: null, effect: null, act: null, version: 0, decisions: [], ...more };
}
const kept = (id: string, scope: SignalScope, cause = "C01") => ({ id, scope, cause });
const ids = ({ again, fresh, faded }: ReturnType<typeof continueSignals>) => ({ again: again.map(({ kept: { id }, place }) => [id, place]), fresh: fresh.length, faded: faded.map(({ id }) => id) });

describe("signals of earlier looks", () => {
  it("go on under the same cause and part of the sales, and fade where they are not found", () => {
    expect(ids(continueSignals([kept("1", narrow), kept("2", narrow, "C15")], [aSignal(narrow)]))).toEqual({ again: [["1", 1]], fresh: 0, faded: ["2"] });
  });

  it("go on though the months of shipping they are told of move with the calendar", () => {
    expect(ids(continueSignals([kept("1", { ...wide, shippedFrom: "2026-05" })], [aSignal({ ...wide, shippedFrom: "2026-06" })]))).toEqual({ again: [["1", 1]], fresh: 0, faded: [] });
  });

  it("go on where the fault is told under another part that explains theirs", () => {
    expect(ids(continueSignals([kept("1", wide)], [aSignal(narrow, { alsoSeenIn: [wide] })]))).toEqual({ again: [["1", 1]], fresh: 0, faded: [] });
  });

  it("are not mixed up with one that has another cause, or that one of its own explains", () => {
    expect(ids(continueSignals([kept("1", wide, "C15")], [aSignal(wide)]))).toEqual({ again: [], fresh: 1, faded: ["1"] });
    expect(ids(continueSignals([kept("1", narrow), kept("2", wide)], [aSignal(narrow, { alsoSeenIn: [wide] })]))).toEqual({ again: [["1", 1]], fresh: 0, faded: ["2"] });
  });

  it("are told once where a fault stands out over all months and over the last ones", () => {
    expect(ids(continueSignals([], [aSignal(wide), aSignal({ ...wide, shippedFrom: "2026-06" })]))).toEqual({ again: [], fresh: 1, faded: [] });
  });
});

function compared(before: { claims: number; usual: number }, after: { claims: number; usual: number }): Effect {
  const side = ({ claims, usual }: { claims: number; usual: number }) => ({ claims, usual, unitsShipped: 600, unitMonthsInService: 3000 });
  const ratio = rateRatio({ count: after.claims, exposure: after.usual }, { count: before.claims, exposure: before.usual }, 0.9);
  if (!ratio) return { kind: "no-claims-on-either-side", before: side(before), after: side(after) };
  return { kind: "compared", before: side(before), after: side(after), ratio, avoided: before.claims > 0 ? (before.claims / before.usual) * after.usual - after.claims : null };
}

describe("before and after in words", () => {
  it("says that it helped only where the whole interval is below one", () => {
    const effect = compared({ claims: 27, usual: 5.5 }, { claims: 1, usual: 2 });
    expect(effectVerdict(effect)).toBe("helped");
    expect(effectInWords(effect)).toMatch(/^It helped: 1 claim on 600 shipped since, where 9\.8 would be due by now at the rate before \(0\.10 times the rate before, 90 % interval 0\.0\d to 0\.\d+\)\. So far about 8\.8 claims did not come\.$/);
    expect(effectVerdict(compared({ claims: 10, usual: 5 }, { claims: 6, usual: 5 }))).toBe("not-told");
  });

  it("says that it is too early as long as even no claim at all could be chance", () => {
    const due = (usual: number) => compared({ claims: 20, usual: 20 }, { claims: 0, usual });
    expect(effectVerdict(due(FEWEST_DUE - 0.1))).toBe("too-early");
    expect(effectInWords(due(1))).toBe("Too early to say: no claim on 600 shipped since, where 1.0 would be due by now at the rate before. From 3 due on it can be told.");
    expect(effectVerdict(due(FEWEST_DUE + 3))).toBe("helped");
  });

  it("does not wait to say that it got worse", () => {
    const effect = compared({ claims: 20, usual: 20 }, { claims: 9, usual: 2 });
    expect(effectVerdict(effect)).toBe("worse");
    expect(effectInWords(effect)).toMatch(/^It did not help: 9 claims/);
  });

  it("never shows an endless figure where there was no claim before", () => {
    for (const effect of [compared({ claims: 0, usual: 4 }, { claims: 3, usual: 2 }), compared({ claims: 0, usual: 4 }, { claims: 0, usual: 2 })]) {
      expect(effectVerdict(effect)).toBe("cannot-tell");
      expect(effectInWords(effect)).not.toMatch(/NaN|Infinity|infinite|null/);
    }
    const empty = { claims: 0, usual: 0, unitsShipped: 0, unitMonthsInService: 0 };
    for (const kind of ["nothing-shipped-before", "nothing-shipped-since"] as const) expect(effectInWords({ kind, before: empty, after: empty })).toMatch(/^(Too early to say|Nothing was shipped without it)/);
  });
});

describe("the list in words", () => {
  const look = { lookedAt: new Date("2026-11-25T12:00:00Z"), isFormal: true, lookedInto: 9000, standingOut: 0, raised: 0, unitsShipped: 5000, claims: 90 };
  const sheet = (newest: typeof look | null, counts: SignalsSheet["counts"] = {}): SignalsSheet => ({
    ok: true,
    catalogue: { kits: [], vehicles: [] },
    causes: [],
    timeZone: "Europe/Berlin",
    month: "2026-11",
    mayDecide: true,
    looks: { newest, newestFormal: newest, formal: newest ? 1 : 0 },
    signals: [],
    counts,
  });

  it("has a heading for what waits, what is decided and nothing at all", () => {
    expect(headline(sheet(look, { waiting: 2, noted: 1 }))).toBe("2 signals wait for a decision");
    expect(headline(sheet(look, { waiting: 1 }))).toBe("One signal waits for a decision");
    expect(headline(sheet(look, { noted: 1, not_real: 1, faded: 3 }))).toBe("All 2 signals have been decided on");
    expect(headline(sheet(look, { faded: 3 }))).toBe("Nothing stands out beyond chance");
    const signals = [aKept({ act: "noted" }), aKept({ cause: "C15", scope: { ...NOWHERE, batch: "VT44-2601" } })];
    expect(headline({ ...sheet(look, { waiting: 2, noted: 1 }), signals })).toBe("2 signals wait for a decision: the surest is batch VT44-2601, “C15”");
    expect(headline(sheet(null))).toBe("No look for signals has been made yet");
  });

  it("says why it is empty", () => {
    expect(emptyInWords(sheet(null))).toMatch(/every night/);
    expect(emptyInWords(sheet({ ...look, unitsShipped: 0, claims: 0 }))).toMatch(/^Nothing has been shipped yet/);
    expect(emptyInWords(sheet({ ...look, unitsShipped: 0, claims: 4 }))).toMatch(/bring in the shipments/);
    expect(emptyInWords(sheet({ ...look, claims: 0 }))).toBe("No claim so far about 5,000 shipped.");
    expect(emptyInWords(sheet({ ...look, claims: 1 }))).toMatch(/^One claim is no signal/);
    expect(emptyInWords(sheet({ ...look, lookedInto: 0 }))).toMatch(/verdict/);
    expect(emptyInWords(sheet(look))).toMatch(/9,000 of them were looked into/);
  });

  it("tells how often it is made and how many of it are false", () => {
    expect(looksInWords(sheet(look))).toMatch(/once so far.*at most 10 % is false/);
  });

  it("tells how sure a signal is without a formula", () => {
    expect(surenessInWords(0.00001)).toMatch(/fewer than 1 in 1,000/);
    expect(surenessInWords(0.0049)).toBe("Very sure: of the signals down to this one about 0.5 in 100 are false");
    expect(surenessInWords(0.08)).toBe("Fairly sure: of the signals down to this one about 8 in 100 are false");
  });

  it("tells the shrunken rate, and none where nothing was shipped", () => {
    expect(rateInWords({ ...aSignal(wide), shippedFrom: null })).toBe("about 18.0 per 1,000 shipped by now, where 4.4 are to be expected of units of their age");
    expect(rateInWords({ ...aSignal(wide), unitsShipped: 0, shippedFrom: null })).toBeNull();
  });

  it("keeps what was decided when the signal fades, and calls only the undecided faded", () => {
    expect(signalState({ act: null, standsOut: true })).toBe("waiting");
    expect(signalState({ act: null, standsOut: false })).toBe("faded");
    for (const act of SIGNAL_ACTS) expect(signalState({ act, standsOut: false })).toBe(act);
  });

  it("draws marks on a scale that holds them and the expected", () => {
    expect(ratioScale([{ lower: 2.6, upper: 6 }])).toEqual({ from: 1, to: 10 });
    expect(ratioScale([{ lower: 0, upper: "infinite" }])).toEqual({ from: 0.1, to: 2 });
    expect(ratioScale([])).toEqual({ from: 1, to: 2 });
  });
});
