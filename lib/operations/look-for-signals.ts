import "server-only";
import { setTimeout as wait } from "node:timers/promises";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { type Db, inTransaction } from "@/lib/data/client";
import { loadCausesEverInForce } from "@/lib/data/editions";
import { queueMail } from "@/lib/data/outgoing-mail";
import { refreshReportCells } from "@/lib/data/report-cells";
import { findReportCatalogue } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import {
  fadeSignal,
  insertLook,
  insertSignal,
  listProductManagers,
  listSignals,
  lockSignals,
  queueLook,
  readSales,
  type SignalKept,
  updateSignal,
  wasLookedAtFormally,
} from "@/lib/data/signals";
import type { Signal } from "@/lib/domain/reporting/signals";
import { isChange } from "@/lib/domain/reporting/signals-acts";
import { continueSignals } from "@/lib/domain/reporting/signals-kept";
import { type ChangeMade, type LookMatter, type LookResult, reckonLook } from "@/lib/domain/reporting/signals-look";
import { signalInWords } from "@/lib/domain/reporting/signals-sentence";
import { env } from "@/lib/env";
import { log } from "@/lib/log";
import { newSignalsMail } from "@/lib/mail/signal-mails";
import { auditActor, refuse, type Refusal } from "./refusal";
import { reportClock } from "./report-clock";

/** Between two tries while another process takes changes over into the cells. */
const PAUSE_MS = 200;

/** Asks the worker for a formal look now, whatever month it is: after new shipments have come in, say. */
export async function askToLook(actor: StaffActor): Promise<{ ok: true } | Refusal> {
  const refused = await refuse(actor, "decide on signals");
  if (refused) return refused;
  return inTransaction(async (db) => {
    await queueLook(db, true);
    await appendAudit(db, { actor: auditActor(actor), action: "ask_for_look" });
    return { ok: true };
  });
}

/**
 * Looks for signals in the worker. The first look of a calendar month is a formal one: what stands out for the first time
 * is raised, and product managers are told once, in the same transaction. The others bring up to date what is on the list
 * and what came of what was done; they raise nothing, so that the share of false signals is the one stated for each
 * formal look.
 *
 * @param isFormal raises new signals even if they were raised in this month already
 * @param reckon where the reckoning is done, which blocks for as long as it takes
 */
export async function lookForSignals(
  { isFormal: isAsked = false, reckon = async (matter) => reckonLook(matter) }: { isFormal?: boolean; reckon?: (matter: LookMatter) => Promise<LookResult> } = {},
  now: Date = new Date(),
): Promise<{ raised: number; standingOut: number; tookMs: number }> {
  await untilCellsAreFresh();
  const [{ timeZone, name, phone }, catalogue, causes] = await Promise.all([loadSettings(), findReportCatalogue(), loadCausesEverInForce()]);
  const inWords = (signal: Signal) => signalInWords(signal, catalogue, causes.find(({ code }) => code === signal.cause)?.name ?? signal.cause);
  const { today } = reportClock(now, timeZone);
  const began = performance.now();
  const [sales, earlier] = await Promise.all([readSales(timeZone, today), listSignals()]);
  const { signals, lookedAt, watches, effects } = await reckon({ sales, changes: earlier.flatMap(changeMade) });
  const tookMs = Math.round(performance.now() - began);

  const raised = await inTransaction(async (db) => {
    await lockSignals(db);
    // A look at nothing must not use up the month.
    const isFormal = lookedAt > 0 && (isAsked || !(await wasLookedAtFormally(db, today.slice(0, 7))));
    const { again, fresh, faded } = continueSignals(await listSignals(db), signals);
    // Of what was decided meanwhile the next look tells the effect: the decision has asked for one.
    const effect = (kept: SignalKept) => effects.get(keyOf(kept)) ?? null;
    for (const { kept, signal, place } of again) await updateSignal(db, kept.id, { signal, place, watch: watches.get(signal) ?? null, effect: effect(kept) }, { at: now, isFormal });
    for (const kept of faded) await fadeSignal(db, kept.id, effect(kept));
    const raising = isFormal ? fresh : [];
    for (const { signal, place } of raising) await insertSignal(db, { signal, place, watch: watches.get(signal) ?? null, effect: null }, now);
    const lookId = await insertLook(db, {
      lookedAt: now,
      today,
      isFormal,
      lookedInto: lookedAt,
      standingOut: again.length + raising.length,
      raised: raising.length,
      unitsShipped: sales.shipped.reduce((sum, { units }) => sum + units, 0),
      claims: sales.claims.reduce((sum, { claims }) => sum + claims, 0),
      tookMs,
    });
    if (raising.length > 0) {
      await tellProductManagers(db, { lookId, sentences: raising.map(({ signal }) => inWords(signal)), seller: { name, phone } });
      await appendAudit(db, { actor: { kind: "system" }, action: "raise_signals", detail: { lookId, raised: raising.length } });
    }
    return raising.length;
  });
  log.info({ event: "signals-looked-for", raised, standingOut: signals.length, tookMs });
  return { raised, standingOut: signals.length, tookMs };
}

/** What was claimed a moment ago is looked at too. */
async function untilCellsAreFresh(): Promise<void> {
  for (;;) {
    const claims = await refreshReportCells();
    if (claims === 0) return;
    if (claims === null) await wait(PAUSE_MS);
  }
}

const keyOf = ({ id, version }: SignalKept) => `${id} ${version}`;

/** The act that holds, if it changed anything; what came of it is told over the months of shipping that the signal was first told of. */
function changeMade(kept: SignalKept): ChangeMade[] {
  const { scope, cause, decisions: [newest], firstFigures } = kept;
  if (!newest || !isChange(newest.act) || newest.holdsFrom === null) return [];
  const changed = newest.revision ? { kitRevisionId: newest.revision.id } : { shippedFrom: newest.holdsFrom };
  return [{ key: keyOf(kept), scope: { ...scope, shippedFrom: firstFigures.shippedFrom }, cause, changed }];
}

/** One mail a look for each who is a product manager now; who becomes one later finds the list. */
async function tellProductManagers(db: Db, { lookId, sentences, seller }: { lookId: string; sentences: readonly string[]; seller: { name: string; phone: string } }): Promise<void> {
  const link = `${env.APP_ORIGIN}/reports/signals`;
  for (const { id, name, email } of await listProductManagers(db))
    await queueMail(db, { onceKey: `signals:${lookId}:${id}`, to: { name, address: email }, ...newSignalsMail({ name, signals: sentences, link, seller }) });
}
