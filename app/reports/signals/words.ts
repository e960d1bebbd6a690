import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import { type Month, monthInWords } from "@/lib/domain/reporting/month";
import { FALSE_DISCOVERY_RATE, FEWEST_CLAIMS_OF_A_SIGNAL } from "@/lib/domain/reporting/signals";
import { SIGNAL_ACT_NAMES, signalState } from "@/lib/domain/reporting/signals-acts";
import { scopeInWords, signalInWords } from "@/lib/domain/reporting/signals-sentence";
import type { SignalDecided, SignalFigures, SignalKept, SignalsSheet } from "@/lib/operations/load-signals";
import { cellAddress, claimsAddress } from "../addresses";
import { count, figure } from "../figures-in-words";

/** The sentence of a signal, with its figures of now. */
export function sentenceOf({ scope, cause, figures }: SignalKept, { catalogue, causes }: { catalogue: ReportCatalogue; causes: readonly Cause[] }): string {
  return signalInWords({ ...figures, scope, cause }, catalogue, nameOf({ cause }, causes));
}

function nameOf({ cause }: Pick<SignalKept, "cause">, causes: readonly Cause[]): string {
  return causes.find(({ code }) => code === cause)?.name ?? cause;
}

/** What a false discovery rate says to somebody who never heard of one. */
export function surenessInWords(falseDiscoveryRate: number): string {
  if (falseDiscoveryRate < 0.001) return "Hardly chance: of signals like this fewer than 1 in 1,000 are false";
  const inHundred = falseDiscoveryRate * 100;
  return `${falseDiscoveryRate < 0.02 ? "Very sure" : "Fairly sure"}: of the signals down to this one about ${inHundred.toFixed(inHundred < 0.95 ? 1 : 0)} in 100 are false`;
}

/** The rate behind the ratio: "about 10.4 per 1,000 shipped where 2.3 are to be expected". */
export function rateInWords({ ratio, expected, unitsShipped }: SignalFigures): string | null {
  if (!(unitsShipped > 0)) return null;
  const usual = (expected / unitsShipped) * 1000;
  return `about ${figure(usual * ratio.ratio)} per 1,000 shipped by now, where ${usual < 0.05 ? "hardly any are" : `${figure(usual)} are`} to be expected of units of their age`;
}

/** "drawing changed, for what ships from May 2026 on, Petra Novak" */
export function decisionInWords({ act, holdsFrom, revision, by }: SignalDecided): string {
  return [SIGNAL_ACT_NAMES[act], ...(revision ? [`rev ${revision.name}`] : []), ...(holdsFrom === null ? [] : [`for what ships from ${monthInWords(holdsFrom)} on`]), by].join(", ");
}

/** What the list has found, as its heading. */
export function headline({ counts, looks: { newest }, signals, catalogue, causes }: SignalsSheet): string {
  const waiting = counts.waiting ?? 0;
  const surest = signals.find((signal) => signalState(signal) === "waiting");
  const about = surest ? `: ${waiting === 1 ? "" : "the surest is "}${scopeInWords({ ...surest.scope, shippedFrom: null }, catalogue).replace("Batch", "batch")}, “${nameOf(surest, causes)}”` : "";
  if (waiting > 0) return `${waiting === 1 ? "One signal waits" : `${waiting} signals wait`} for a decision${about}`;
  if (!newest) return "No look for signals has been made yet";
  const marked = Object.entries(counts).reduce((sum, [state, signals]) => (state === "faded" ? sum : sum + signals), 0);
  if (marked > 0) return marked === 1 ? "The one signal there was has been decided on" : `All ${marked} signals have been decided on`;
  return "Nothing stands out beyond chance";
}

/** Why the list is empty. */
export function emptyInWords({ looks: { newest } }: SignalsSheet): string {
  if (!newest) return "The worker looks every night, and soon after it starts. Come back in a minute.";
  if (newest.unitsShipped === 0) return newest.claims === 0 ? "Nothing has been shipped yet, so there is nothing to look at." : `No shipment is known to set the ${count(newest.claims)} claims against: bring in the shipments first.`;
  if (newest.claims === 0) return `No claim so far about ${count(newest.unitsShipped)} shipped.`;
  if (newest.claims < FEWEST_CLAIMS_OF_A_SIGNAL) return `${newest.claims === 1 ? "One claim is" : `${count(newest.claims)} claims are`} no signal, however few were to be expected: it takes ${FEWEST_CLAIMS_OF_A_SIGNAL} of one cause.`;
  if (newest.lookedInto === 0) return "No claim has a verdict yet: only confirmed causes are counted.";
  return `No kit, revision, batch or kit on a vehicle brings any cause more often than the rest leads to expect, beyond chance; ${count(newest.lookedInto)} of them were looked into.`;
}

/** How often the list is made, and what that means for how far it can be trusted. */
export function looksInWords({ looks: { newest, newestFormal, formal } }: SignalsSheet): string {
  if (!newest) return "";
  const share = `${Math.round(FALSE_DISCOVERY_RATE * 100)} %`;
  return `New signals are raised in the first look of each month and when somebody asks for a look: ${formal === 1 ? "once" : `${formal} times`} so far. Of what ${newestFormal ? "one such look" : "a look"} finds at most ${share} is false, on average, with all that was looked into counted in; that holds for each look, so over many looks a few false ones gather, and “not real” takes them off. In the nights between, each signal's figures are brought up to date and the cumulative sum of its claims, month of shipping by month of shipping, tells what was shipped when brings more; that raises nothing new.`;
}

/** Where the claims behind a signal stand, and its part of the sales in the report of causes. */
export function addressesOf({ scope, cause, figures }: SignalKept, { catalogue, month }: { catalogue: ReportCatalogue; month: Month }) {
  const kit = catalogue.kits.find(({ id }) => id === scope.kitId);
  const selection = {
    from: scope.shippedFrom ?? figures.since,
    to: month,
    kit: kit?.code,
    revision: kit?.revisions.find(({ id }) => id === scope.kitRevisionId)?.revision,
    vehicle: scope.vehicleId,
    batch: scope.batch,
  };
  return { claims: claimsAddress({ ...selection, cause }), cell: cellAddress(selection) };
}
