import "server-only";
import { randomBytes } from "node:crypto";
import type { StaffActor } from "@/lib/access/actors";
import { database, inTransaction, isUniqueViolation } from "@/lib/data/client";
import { type Draft, findCall, findClaimByFilingKey, findDraft, insertCall, listOpenCalls, updateDraft } from "@/lib/data/drafts";
import { findOrder, findShipmentOfUnit } from "@/lib/data/purchases";
import type { Language } from "@/lib/domain/claims/languages";
import { makeReference } from "@/lib/domain/claims/reference";
import { FIRST_UNIT_SYSTEM } from "@/lib/domain/claims/unit-systems";
import type { Caution } from "@/lib/domain/diagnosis/cautions";
import { answer, type IntakeAnswers, type Screen, SCREENS } from "@/lib/domain/intake/answers";
import { fieldsForCaller, namedByScreen, typedOfScreen } from "@/lib/domain/intake/call-fields";
import { type IntakeField, isShown } from "@/lib/domain/intake/fields";
import { screensToAsk, withTurn } from "@/lib/domain/intake/intake-path";
import { applies } from "@/lib/domain/intake/questions";
import { PAIR_UNIT, screenName } from "@/lib/domain/intake/screens";
import { valuesOf, withoutChecksOf } from "@/lib/domain/intake/told-checks";
import { formOf } from "@/lib/inputs/form";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { sayIn } from "@/lib/messages/words";
import { newDraftKey } from "./claim-links";
import type { Reader } from "./edition-for-reader";
import { fileDraft, type Filing, firstUnfitScreen } from "./file-claim";
import { findMyPurchase } from "./find-my-purchase";
import { loadBasis } from "./intake-basis";
import { describeForDraft, stopInWords } from "./load-screen";
import { auditActor, type Refusal, refuse } from "./refusal";
import { withoutSettled } from "./save-answer";

export type StartCallResult = { ok: true; claimId: string } | Refusal | { ok: false; reason: "no-such-purchase" };

/**
 * Begins a complaint for somebody who calls: a draft like a customer's, marked with who takes it down. An order number or
 * a serial fills in what is known of the purchase; no address is asked for, since staff may see it anyway.
 *
 * @param language the customer's, for whatever is sent to them
 * @param filingKey made with the form: posted twice it begins one draft
 */
export async function startCall(actor: StaffActor, { number, language, filingKey }: { number: string; language: Language; filingKey: string }, now: Date = new Date()): Promise<StartCallResult> {
  const refused = await refuse(actor, "file for a caller");
  if (refused) return refused;
  const begun = number ? await purchaseOf(number) : { answers: {}, changes: {} };
  if (!begun) return { ok: false, reason: "no-such-purchase" };
  try {
    return await inTransaction(async (db): Promise<StartCallResult> => {
      const { id } = await insertCall(db, { reference: makeReference(randomBytes(64)), filingKey, language, takenDownById: actor.personId, answers: begun.answers, ...begun.changes });
      // A draft is kept as long as one of its keys; nobody is given this one.
      await newDraftKey(db, id, now);
      return { ok: true, claimId: id };
    });
  } catch (error) {
    const same = isUniqueViolation(error) ? await findClaimByFilingKey(filingKey) : null;
    if (!same) throw error;
    return { ok: true, claimId: same.id };
  }
}

/** What an order number or a serial tells, as the answers that a customer would have given. */
async function purchaseOf(number: string) {
  const order = await findOrder(number);
  if (order) {
    const answers: IntakeAnswers = { purchase: { by: "order" }, contact: { name: order.customerName, email: order.customerEmail, phone: "" } };
    const found = await findMyPurchase("order", { number: order.number, email: order.customerEmail }, answers, true);
    return found.ok ? { answers: { ...answers, order: found.values }, changes: found.changes } : null;
  }
  const shipment = await findShipmentOfUnit(number);
  if (!shipment?.unit) return null;
  const found = await findMyPurchase("serial", { serial: shipment.unit.serial }, {}, true);
  return found.ok ? { answers: { purchase: { by: "serial" }, serial: found.values } satisfies IntakeAnswers, changes: found.changes } : null;
}

export interface CallSection {
  screen: Screen;
  name: string;
  lead: string | null;
  /** Named by screen, as the page posts them. */
  fields: readonly IntakeField[];
  isAnswered: boolean;
}

export interface Call {
  ok: true;
  reference: string;
  language: Language;
  sections: readonly CallSection[];
  /** What was typed, by the names of the fields. */
  values: Readonly<Record<string, string>>;
  stop: Caution | null;
  /** Everything worth asking is answered. */
  isReady: boolean;
}

export type LoadCallResult = Call | Refusal | { ok: false; reason: "not-found" | "already-filed" };

/** A call as it stands: all that is to be asked on one page, the worthiest questions first, as a customer is asked them one by one. */
export async function loadCall(actor: StaffActor, claimId: string): Promise<LoadCallResult> {
  const refused = await refuse(actor, "file for a caller");
  if (refused) return refused;
  const found = await draftOfCall(claimId);
  if (!found.ok) return found;
  const { draft } = found;
  const basis = await loadBasis();
  const screens = screensToAsk(draft, basis);
  const sections = await Promise.all(
    screens.map(async (screen): Promise<CallSection> => {
      const described = await describeForDraft(screen, draft, STAFF_READER);
      const fields = fieldsForCaller(screen, described.fields, draft.answers[screen] ?? {});
      return { screen, name: screenName(screen, sayIn(STAFF_READER.language)), lead: described.lead ?? null, fields: namedByScreen(screen, fields), isAnswered: isAnswered(fields, draft.answers[screen]) };
    }),
  );
  const values = Object.fromEntries(screens.flatMap((screen) => Object.entries(valuesOf(screen, draft.answers)).map(([name, value]) => [`${screen}.${name}`, value])));
  return { ok: true, reference: draft.reference, language: found.language, sections, values, stop: stopInWords(draft, basis.edition, STAFF_READER.language), isReady: sections.every(({ isAnswered }) => isAnswered) };
}

/** Whether nothing is missing any more, also of what is asked only since the screen was answered. */
function isAnswered(fields: readonly IntakeField[], typed: Readonly<Record<string, string>> | undefined): boolean {
  return typed !== undefined && fields.every((field) => !field.missing || !isShown(field, typed) || Boolean(typed[field.name]));
}

/** The questions are read out by staff. */
const STAFF_READER: Reader = { language: "en", units: FIRST_UNIT_SYSTEM };

async function draftOfCall(claimId: string): Promise<{ ok: true; draft: Draft; language: Language } | { ok: false; reason: "not-found" | "already-filed" }> {
  const call = await findCall(claimId);
  if (!call) return { ok: false, reason: "not-found" };
  const draft = call.isFiled ? null : await findDraft(claimId);
  return draft ? { ok: true, draft, language: call.language } : { ok: false, reason: "already-filed" };
}

export type SaveCallResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "already-filed" | "changed-meanwhile" } | { ok: false; reason: "refused"; messages: Record<string, string> };

/**
 * Keeps what was typed on the page of a call: each screen that is sound, in the order in which a customer would answer. A
 * screen left empty is kept as unanswered, and an order or a serial that is not found as that.
 *
 * @param isWhole everything on the page counts as asked, so that nothing may be missing any more
 */
export async function saveCall(actor: StaffActor, claimId: string, typed: Readonly<Record<string, string>>, isWhole: boolean): Promise<SaveCallResult> {
  const refused = await refuse(actor, "file for a caller");
  if (refused) return refused;
  const found = await draftOfCall(claimId);
  if (!found.ok) return found;
  const { edition } = await loadBasis();
  const { id, version } = found.draft;
  let draft = found.draft;
  const messages: Record<string, string> = {};
  for (const screen of SCREENS) {
    const own = typedOfScreen(screen, typed);
    if (!own || applies(screen, draft, edition) !== true) continue;
    const isEmpty = Object.entries(own).every(([name, value]) => value === "" || name.endsWith("-unit"));
    if (isEmpty && !isWhole) continue;
    const fields = fieldsForCaller(screen, (await describeForDraft(screen, draft, STAFF_READER)).fields, own).map((field) => (field.name === PAIR_UNIT ? notYetMissing(field) : field));
    const parsed = screenSchema(fields, sayIn(STAFF_READER.language)).safeParse(typedValues(fields, formOf(own)));
    if (!parsed.success) {
      for (const [field, message] of Object.entries(messagesOf(parsed.error))) messages[`${screen}.${field}`] = message;
      continue;
    }
    const purchase = await findMyPurchase(screen, parsed.data, draft.answers, true);
    if (!purchase.ok) continue;
    const answers: IntakeAnswers = { ...withoutChecksOf(screen, withoutSettled(screen, purchase.values, draft.answers)), [screen]: withTurn(screen, purchase.values, draft.answers) };
    // Kept one by one: what an answer tells of the purchase decides what is asked next.
    if (!(await updateDraft(database(), draft, { ...purchase.changes, answers }))) return { ok: false, reason: "changed-meanwhile" };
    draft = (await findDraft(id)) ?? { ...draft, version };
  }
  return Object.keys(messages).length > 0 ? { ok: false, reason: "refused", messages } : { ok: true };
}

/** That it is one of a pair may be known only since this page was sent: then it asks, and filing insists. */
function notYetMissing({ missing: _, ...field }: IntakeField): IntakeField {
  return field;
}

export type FileCallResult = SaveCallResult | { ok: false; reason: "incomplete"; screen: Screen };

/** Keeps what the page holds and files it: observed by the customer, taken down by whoever asks. Filing twice gives one claim. */
export async function fileCall(actor: StaffActor, claimId: string, typed: Readonly<Record<string, string>>, now: Date = new Date()): Promise<FileCallResult> {
  const refused = await refuse(actor, "file for a caller");
  if (refused) return refused;
  const saved = await saveCall(actor, claimId, typed, true);
  if (!saved.ok) return saved.reason === "already-filed" ? { ok: true } : saved;
  const found = await draftOfCall(claimId);
  if (!found.ok) return found.reason === "already-filed" ? { ok: true } : found;
  const filing: Filing = { by: auditActor(actor), reader: { ...STAFF_READER, language: found.language }, isCall: true };
  const screen = await firstUnfitScreen(found.draft, filing, now);
  if (screen) return { ok: false, reason: "incomplete", screen };
  const filed = await fileDraft(found.draft, filing, now, async () => true);
  return filed || (await findCall(claimId))?.isFiled ? { ok: true } : { ok: false, reason: "changed-meanwhile" };
}

/** Calls that were begun and not filed yet, by whom they are about. */
export async function loadOpenCalls(actor: StaffActor): Promise<{ ok: true; calls: readonly { id: string; begunAt: Date; about: string | null }[] } | Refusal> {
  const refused = await refuse(actor, "file for a caller");
  if (refused) return refused;
  const calls = await listOpenCalls(actor.personId);
  return { ok: true, calls: calls.map(({ id, createdAt, answers }) => ({ id, begunAt: createdAt, about: answer(answers, "contact", "name") ?? answer(answers, "order", "number") ?? answer(answers, "serial", "serial") ?? null })) };
}

