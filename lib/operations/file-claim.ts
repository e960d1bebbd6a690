import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { keepFitter } from "@/lib/data/claims-by-customer";
import type { AuditLine } from "@/lib/data/audit";
import { database, type Db, inTransaction } from "@/lib/data/client";
import { type Draft, findDraft } from "@/lib/data/drafts";
import { loadEditionInForce } from "@/lib/data/editions";
import { insertFinding } from "@/lib/data/findings";
import { moveClaim } from "@/lib/data/move-claim";
import { queueMail } from "@/lib/data/outgoing-mail";
import { findRevisionSoldOn } from "@/lib/data/purchases";
import { countTry } from "@/lib/data/rate-limit";
import { loadSettings } from "@/lib/data/settings";
import { promisedAnswer } from "@/lib/domain/claims/promised-answer";
import { stakesOf } from "@/lib/domain/diagnosis/stakes";
import { answer, type IntakeAnswers, observerOf, type Screen } from "@/lib/domain/intake/answers";
import { fieldsForCaller } from "@/lib/domain/intake/call-fields";
import { parseTypedNumber, unitField } from "@/lib/domain/intake/fields";
import { findingsFromAnswers } from "@/lib/domain/intake/findings-from-answers";
import { type Basis, firstOpenScreen, screensToAsk } from "@/lib/domain/intake/intake-path";
import { pairTold } from "@/lib/domain/intake/pair-told";
import { standingAnswers } from "@/lib/domain/intake/questions";
import { stopFromAnswers } from "@/lib/domain/intake/stop-from-answers";
import { screenSchema } from "@/lib/inputs/intake";
import { filedMail } from "@/lib/mail/customer-mails";
import { dayAndTimeInWords } from "@/lib/messages/dates";
import { sayIn, wordsIn } from "@/lib/messages/words";
import { newClaimLink, newFollowingKey } from "./claim-links";
import type { Reader } from "./edition-for-reader";
import { describeAll } from "./load-screen";
import { noteSameUnit } from "./note-same-unit";
import { rankClaim } from "./rank-claim";

export type FileClaimResult =
  /** Filed now or before: the same claim, with a key for this browser. */
  | { ok: true; reference: string; key: string; filedNow: boolean }
  | { ok: false; reason: "incomplete"; screen: Screen }
  | { ok: false; reason: "too-many-filings" }
  | { ok: false; reason: "changed-meanwhile" };

/**
 * Files the customer's own draft: checks every answer again, keeps the findings, links the purchase, ranks, sets the
 * promised time and queues the receipt, all or nothing. Filing twice gives one claim.
 *
 * @param caller for counting filings
 */
export async function fileClaim(actor: CustomerActor, caller: string, now: Date = new Date()): Promise<FileClaimResult> {
  const draft = await findDraft(actor.claimId);
  if (!draft) return alreadyFiled(actor, now);
  const filing: Filing = { by: { kind: "customer" }, reader: actor, isCall: false };
  const screen = await firstUnfitScreen(draft, filing, now);
  if (screen) return { ok: false, reason: "incomplete", screen };
  if (!(await countTry("filing", caller))) return { ok: false, reason: "too-many-filings" };
  const key = await fileDraft(draft, filing, now, (db) => newFollowingKey(db, draft.id, now));
  if (key) return { ok: true, reference: draft.reference, key, filedNow: true };
  return (await findDraft(actor.claimId)) ? { ok: false, reason: "changed-meanwhile" } : alreadyFiled(actor, now);
}

/** Who files a draft: the customer, or staff who took it down for a caller. */
export interface Filing {
  by: AuditLine["actor"];
  reader: Reader;
  isCall: boolean;
}

/**
 * Files a draft that was found fit, in one transaction with what is done `within` it; null when somebody has changed or
 * filed it meanwhile. Part of the operations that have checked who asks.
 */
export async function fileDraft<T>(draft: Draft, { by, reader, isCall }: Filing, now: Date, within: (db: Db) => Promise<T>): Promise<T | null> {
  const [edition, seller] = await Promise.all([loadEditionInForce(), loadSettings()]);
  const promisedAt = promisedAnswer(now, seller.promisedAnswerHours, seller);
  const answers = standingAnswers(draft, edition);
  const contact = { name: answer(answers, "contact", "name") ?? "", email: answer(answers, "contact", "email") ?? "" };
  const observer = observerOf(answers) ?? "customer";
  const told = findingsFromAnswers(draft, edition);
  const purchase = await purchaseColumns(draft, answers, now);

  return inTransaction(async (db) => {
    const moved = await moveClaim(
      db,
      draft.id,
      "file",
      { actor: by, detail: { findings: told.length } },
      {
        expectedVersion: draft.version,
        changes: {
          filedBy: observer,
          contactName: contact.name,
          contactEmail: isCall ? contact.email || null : contact.email,
          contactPhone: answer(answers, "contact", "phone") ?? null,
          description: answer(answers, "pictures", "words") ?? "",
          fitterId: await fitterOf(db, answers),
          filedAt: now,
          deskSince: now,
          promisedAt,
          ...purchase,
          ...runSinceFitting(answers),
        },
      },
    );
    if (!moved.ok) return null;
    for (const finding of told) await insertFinding(db, { ...finding, claimId: draft.id, observer });
    await rankClaim(db, draft.id);
    await noteSameUnit(db, draft.id);
    const link = await newClaimLink(db, draft, now);
    const promisedBy = dayAndTimeInWords(promisedAt, reader.language, seller.timeZone);
    const mail = filedMail({ name: contact.name, reference: draft.reference, link, promisedBy, stopsEngine: stopFromAnswers(draft, edition) !== null, seller }, wordsIn(reader.language));
    await queueMail(db, { onceKey: `filed:${draft.id}`, claimId: draft.id, to: { name: contact.name, address: contact.email }, ...mail });
    return within(db);
  });
}

async function alreadyFiled(actor: CustomerActor, now: Date): Promise<FileClaimResult> {
  return { ok: true, reference: actor.reference, key: await newFollowingKey(database(), actor.claimId, now), filedNow: false };
}

/** The first screen that is not answered, or whose answers the schema of today refuses. Part of the operations that file. */
export async function firstUnfitScreen(draft: Draft, { reader, isCall }: Filing, now: Date): Promise<Screen | null> {
  const [edition, seller] = await Promise.all([loadEditionInForce(), loadSettings()]);
  const basis: Basis = { edition, stakes: stakesOf(seller) };
  const open = firstOpenScreen(draft, basis);
  if (open) return open;
  const described = await describeAll(screensToAsk(draft, basis), draft, edition, now, reader);
  for (const [screen, { fields }] of described) {
    const typed = draft.answers[screen] ?? {};
    if (!screenSchema(isCall ? fieldsForCaller(screen, fields, typed) : fields, sayIn(reader.language)).safeParse(typed).success) return screen;
  }
  return null;
}

/** The purchase on the claim, and what was typed of it. A kit picked without an order is of the revision sold then. */
async function purchaseColumns(draft: Draft, answers: IntakeAnswers, now: Date) {
  const fittedOn = answer(answers, "fitting", "fittedOn");
  const picked = draft.shipmentId === null && draft.purchase.kitId !== null ? await findRevisionSoldOn(draft.purchase.kitId, fittedOn ? new Date(fittedOn) : now) : null;
  return {
    orderNumber: answer(answers, "order", "number") ?? null,
    ...pairTold({ ...draft, answers }, draft.unit?.serial ?? answer(answers, "serial", "serial") ?? null),
    vehicleWords: answer(answers, "vehicle", "words") ?? null,
    fittedOn: fittedOn ? new Date(fittedOn) : null,
    ...(picked ? { kitRevisionId: picked.id } : {}),
  };
}

function runSinceFitting(answers: IntakeAnswers): { hoursRun?: number; distanceKm?: number } {
  const run = parseTypedNumber(answer(answers, "fitting", "run") ?? "");
  if (run === null) return {};
  const unit = answer(answers, "fitting", unitField("run"));
  return unit === "h" ? { hoursRun: run } : { distanceKm: unit === "mi" ? run * 1.609344 : run };
}

async function fitterOf(db: Parameters<typeof keepFitter>[0], answers: IntakeAnswers): Promise<string | null> {
  const name = answer(answers, "fitting", "fitter") === "garage" ? answer(answers, "fitting", "fitterName") : undefined;
  return name ? (await keepFitter(db, name, answer(answers, "fitting", "fitterPlace") ?? "")).id : null;
}
