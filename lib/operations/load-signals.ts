import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadCausesEverInForce } from "@/lib/data/editions";
import { findReportCatalogue } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import { countWaitingSignals, findLooks, findSignal, type Looks, listSignals, type SignalKept } from "@/lib/data/signals";
import { may } from "@/lib/domain/claims/permissions";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { Month } from "@/lib/domain/reporting/month";
import { type SignalState, signalState } from "@/lib/domain/reporting/signals-acts";
import type { SignalsFilter } from "@/lib/inputs/signal";
import { type Refusal, refuse } from "./refusal";
import { reportClock } from "./report-clock";

export type { SignalDecided, SignalFigures, SignalKept } from "@/lib/data/signals";

interface Surroundings {
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  timeZone: string;
  /** The month of today, where the seller is. */
  month: Month;
  mayDecide: boolean;
}

export interface SignalsSheet extends Surroundings {
  ok: true;
  looks: Looks;
  /** Those of the state asked for: first what waits, then what was marked, what has faded last. */
  signals: readonly SignalKept[];
  /** How many there are of each state. */
  counts: Readonly<Partial<Record<SignalState, number>>>;
}

/** The list of signals as the newest look left it. */
export async function loadSignals(actor: StaffActor, { state }: SignalsFilter, now: Date = new Date()): Promise<SignalsSheet | Refusal> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const [around, looks, all] = await Promise.all([surroundings(actor, now), findLooks(), listSignals()]);
  const counts: Partial<Record<SignalState, number>> = {};
  for (const signal of all) counts[signalState(signal)] = (counts[signalState(signal)] ?? 0) + 1;
  const signals = all.filter((signal) => state === undefined || signalState(signal) === state).sort((a, b) => urgency(a) - urgency(b));
  return { ok: true, ...around, looks, signals, counts };
}

/** Lower comes first; within, the order of the list stays. */
function urgency(signal: SignalKept): number {
  const state = signalState(signal);
  return state === "waiting" ? 0 : state === "not_real" ? 3 : signal.standsOut ? 1 : 2;
}

export interface SignalSheet extends Surroundings {
  ok: true;
  signal: SignalKept;
}

/** One signal with its history. */
export async function loadSignal(actor: StaffActor, signalId: string, now: Date = new Date()): Promise<SignalSheet | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const [around, signal] = await Promise.all([surroundings(actor, now), findSignal(signalId)]);
  return signal ? { ok: true, ...around, signal } : { ok: false, reason: "not-found" };
}

/** How many signals wait for a decision, to be said at the top of other pages. */
export async function loadWaitingSignals(actor: StaffActor): Promise<{ ok: true; waiting: number } | Refusal> {
  const refused = await refuse(actor, "see reports");
  return refused ?? { ok: true, waiting: await countWaitingSignals() };
}

async function surroundings(actor: StaffActor, now: Date): Promise<Surroundings> {
  const [catalogue, causes, { timeZone }] = await Promise.all([findReportCatalogue(), loadCausesEverInForce(), loadSettings()]);
  return { catalogue, causes, timeZone, month: reportClock(now, timeZone).today.slice(0, 7), mayDecide: may(actor.role, "decide on signals") };
}
