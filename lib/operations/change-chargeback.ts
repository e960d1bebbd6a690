import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { deleteChargeback, deleteLine, findChargeback, insertAnswer, type KeptChargeback, listCosts, lockChargeback, updateChargeback, updateLine } from "@/lib/data/chargebacks";
import { type Db, inTransaction } from "@/lib/data/client";
import { loadSettings } from "@/lib/data/settings";
import { type ChargebackAct, type ChargebackState, lineTotal, mayAct, stateByAnswers } from "@/lib/domain/claims/chargeback";
import { toMinor } from "@/lib/domain/claims/money";
import type { chargebackActSchema, sendSchema, SupplierAnswers, takeOutSchema } from "@/lib/inputs/chargeback";
import { auditActor, refuse, type Refusal } from "./refusal";

export type ChargebackChange =
  | { ok: true; state: ChargebackState }
  | Refusal
  | { ok: false; reason: "not-found" | "changed-meanwhile" | "not-legal-here" }
  /** A draft without lines is not sent. */
  | { ok: false; reason: "no-lines" }
  /** A verdict in it was taken back since, or decided anew. */
  | { ok: false; reason: "verdict-gone" }
  /** What is booked has changed since the lines were written: they are written anew, look again. */
  | { ok: false; reason: "amounts-changed" }
  /** More was accepted of a line than is asked. */
  | { ok: false; reason: "more-than-asked"; lineIds: readonly string[] }
  | { ok: false; reason: "no-answer" };

type Act = z.output<typeof chargebackActSchema>;
type Work = (db: Db, chargeback: KeptChargeback) => Promise<ChargebackChange>;

/** Does something to a chargeback as the person saw it: who acts second is told. */
async function act({ number, version }: Act, what: ChargebackAct, work: Work): Promise<ChargebackChange> {
  return inTransaction(async (db) => {
    await lockChargeback(db, number);
    const chargeback = await findChargeback(number, db);
    if (!chargeback) return { ok: false, reason: "not-found" };
    if (chargeback.version !== version) return { ok: false, reason: "changed-meanwhile" };
    if (!mayAct(chargeback.state, what)) return { ok: false, reason: "not-legal-here" };
    return work(db, chargeback);
  });
}

/** Takes a line out of a draft: its verdict can be charged another time. */
export async function takeOutLine(actor: StaffActor, { lineId, ...on }: z.output<typeof takeOutSchema>): Promise<ChargebackChange> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  return act(on, "change_lines", async (db, { id }) => {
    if (!(await deleteLine(db, id, lineId))) return { ok: false, reason: "not-found" };
    await updateChargeback(db, on.number, {});
    await appendAudit(db, { actor: auditActor(actor), action: "change_chargeback", detail: { number: on.number, takenOut: lineId } });
    return { ok: true, state: "draft" };
  });
}

/** Drops a draft: all its verdicts can be charged another time. */
export async function dropChargeback(actor: StaffActor, on: Act): Promise<ChargebackChange> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  return act(on, "drop", async (db) => {
    await deleteChargeback(db, on.number);
    await appendAudit(db, { actor: auditActor(actor), action: "drop_chargeback", detail: { number: on.number } });
    return { ok: true, state: "draft" };
  });
}

/** Sends a draft: from now on its amounts stand, and an answer is due. What was booked since is counted first. */
export async function sendChargeback(actor: StaffActor, { days, note, ...on }: z.output<typeof sendSchema>, now: Date = new Date()): Promise<ChargebackChange> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  const { timeZone } = await loadSettings();
  return act(on, "send", async (db, { lines, currency, benchMinute }) => {
    if (lines.length === 0) return { ok: false, reason: "no-lines" };
    if (lines.some(({ verdict }) => verdict?.supersededAt)) return { ok: false, reason: "verdict-gone" };
    const costs = await listCosts(db, lines.flatMap(({ verdictId }) => verdictId ?? []), currency);
    const counted = lines.flatMap((line) => {
      const cost = line.verdictId === null ? undefined : costs.get(line.verdictId);
      return cost ? [{ line, amounts: { ...cost, benchMinor: toMinor(cost.benchMinutes * benchMinute, currency) } }] : [];
    });
    const changed = counted.filter(({ line, amounts }) => lineTotal(line) !== lineTotal(amounts));
    for (const { line, amounts } of changed) await updateLine(db, line.id, amounts);
    if (changed.length > 0) {
      await updateChargeback(db, on.number, {});
      return { ok: false, reason: "amounts-changed" };
    }
    const today = new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" }).format(now);
    const answerDueOn = new Date(Date.parse(today) + days * 86_400_000);
    await updateChargeback(db, on.number, { state: "sent", sentAt: now, answerDueOn, note });
    await appendAudit(db, { actor: auditActor(actor), action: "send_chargeback", detail: { number: on.number, askedMinor: lines.reduce((sum, line) => sum + lineTotal(line), 0), currency } });
    return { ok: true, state: "sent" };
  });
}

/** Books what the supplier accepts of each line; an earlier answer stays beside the one that takes its place. */
export async function bookSupplierAnswers(actor: StaffActor, { amounts, rest, note, ...on }: SupplierAnswers, now: Date = new Date()): Promise<ChargebackChange> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  return act(on, "answer", async (db, { lines }) => {
    const answers = lines.flatMap((line) => {
      const acceptedMinor = amounts[line.id] ?? (rest === undefined || line.acceptedMinor !== null ? null : rest === "whole" ? lineTotal(line) : 0);
      return acceptedMinor === null || acceptedMinor === line.acceptedMinor ? [] : [{ line, acceptedMinor }];
    });
    if (answers.length === 0) return { ok: false, reason: "no-answer" };
    const tooMuch = answers.filter(({ line, acceptedMinor }) => acceptedMinor > lineTotal(line));
    if (tooMuch.length > 0) return { ok: false, reason: "more-than-asked", lineIds: tooMuch.map(({ line }) => line.id) };
    for (const { line, acceptedMinor } of answers) await insertAnswer(db, { lineId: line.id, acceptedMinor, note, bookedById: actor.personId, bookedAt: now });
    const answered = new Map(answers.map(({ line, acceptedMinor }) => [line.id, acceptedMinor]));
    const state = stateByAnswers(lines.map((line) => ({ ...line, acceptedMinor: answered.get(line.id) ?? line.acceptedMinor })));
    await updateChargeback(db, on.number, { state });
    await appendAudit(db, { actor: auditActor(actor), action: "answer_chargeback", detail: { number: on.number, lines: answers.length, state } });
    return { ok: true, state };
  });
}

/** Closes an answered chargeback: nothing more is expected of the supplier. */
export async function closeChargeback(actor: StaffActor, on: Act, now: Date = new Date()): Promise<ChargebackChange> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  return act(on, "close", async (db) => {
    await updateChargeback(db, on.number, { state: "closed", closedAt: now });
    await appendAudit(db, { actor: auditActor(actor), action: "close_chargeback", detail: { number: on.number } });
    return { ok: true, state: "closed" };
  });
}
