import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { countOpenCheckRequests } from "@/lib/data/claims-by-customer";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { database, type Db, inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { queueMail } from "@/lib/data/outgoing-mail";
import { listQuietClaims, type QuietClaim, updateLapseHeld, updateQuietSteps } from "@/lib/data/quiet-claims";
import { loadSettings, type SellerSettings } from "@/lib/data/settings";
import { nextQuietStep, type QuietStep } from "@/lib/domain/claims/reminders";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { ComposedMail } from "@/lib/mail/compose";
import { lapsedMail, lapseNoticeMail, reminderMail } from "@/lib/mail/reminder-mails";
import { dayInWords } from "@/lib/messages/dates";
import { type Words, wordsIn } from "@/lib/messages/words";
import { newClaimLink } from "./claim-links";
import { eachByItself } from "./each-by-itself";
import { auditActor, type Refusal, refuse } from "./refusal";

/**
 * Reminds of checks that nobody has answered, gives notice, and closes what stayed unanswered after it; the worker's. Each
 * claim is a transaction of its own. Nobody lapses whom mail does not reach: those are for staff to call.
 */
export async function remindOfOpenChecks(now: Date = new Date()): Promise<{ reminded: number; noticed: number; lapsed: number }> {
  const settings = await loadSettings();
  const counts = { reminded: 0, noticed: 0, lapsed: 0 };
  const quiet = await listQuietClaims(database(), { before: new Date(now.getTime() - settings.firstReminderDays * 86_400_000) });
  await eachByItself(
    quiet.map(({ id }) => ({ claimId: id })),
    async ({ claimId }) => {
      const step = await inTransaction((db) => takeQuietStep(db, claimId, settings, now));
      if (step === "remind") counts.reminded++;
      if (step === "give notice") counts.noticed++;
      if (step === "lapse") counts.lapsed++;
    },
  );
  return counts;
}

/** One claim, locked and read again: the customer may have answered meanwhile. */
async function takeQuietStep(db: Db, claimId: string, settings: SellerSettings, now: Date): Promise<QuietStep["do"]> {
  await lockClaim(db, claimId);
  const [claim] = await listQuietClaims(db, { before: now, claimId });
  if (!claim) return "nothing";
  const due = nextQuietStep(claim, settings, now);
  if (due.do === "nothing") return due.do;
  if (due.do === "lapse") {
    // The checks stay open, so that an answer after all still finds its place.
    const moved = await moveClaim(db, claimId, "lapse", { actor: { kind: "system" } }, { changes: { quietSteps: 0, quietFrom: null, lapsesAt: null } });
    if (!moved.ok) return "nothing";
    await queueMail(db, { onceKey: `lapsed:${claimId}:${claim.countedFrom?.toISOString()}`, ...(await mailTo(db, claim, settings, now, lapsedMail)) });
    return due.do;
  }
  await updateQuietSteps(db, claimId, { steps: due.step, countedFrom: due.countFrom, lapsesAt: due.lapsesAt });
  const { lapsesAt } = due;
  const mail = await mailTo(db, claim, settings, now, lapsesAt ? (facts, words) => lapseNoticeMail({ ...facts, lapsesOn: dayInWords(lapsesAt, claim.language, settings.timeZone) }, words) : reminderMail);
  await queueMail(db, { onceKey: `quiet:${claimId}:${claim.quietSince.toISOString()}:${due.step}`, ...mail });
  if (lapsesAt) await appendAudit(db, { actor: { kind: "system" }, action: "give_lapse_notice", claimId, detail: { lapsesAt: lapsesAt.toISOString() } });
  else await appendAudit(db, { actor: { kind: "system" }, action: "remind_of_checks", claimId, detail: { step: due.step } });
  return due.do;
}

type Compose = (facts: Parameters<typeof reminderMail>[0], words: Words) => ComposedMail;

async function mailTo(db: Db, claim: Pick<QuietClaim, "id" | "reference" | "contactName" | "contactEmail" | "language">, seller: SellerSettings, now: Date, compose: Compose) {
  const { contactName: name, reference } = claim;
  const facts = { name, reference, link: await newClaimLink(db, claim, now), open: await countOpenCheckRequests(db, claim.id), seller };
  return { claimId: claim.id, to: { name, address: claim.contactEmail }, ...compose(facts, wordsIn(claim.language)) };
}

export type RemindNowResult =
  | { ok: true }
  | Refusal
  | { ok: false; reason: "not-found" | "no-open-check" | "no-mail" | "reminded-today" }
  | { ok: false; reason: "not-legal-here"; stage: ClaimStage };

/** Reminds of the open checks at once, once a day at most; what the worker counts goes on beside it. */
export async function remindNow(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<RemindNowResult> {
  const refused = await refuse(actor, "ask for a check", claimId);
  if (refused) return refused;
  return inTransaction(async (db): Promise<RemindNowResult> => {
    await lockClaim(db, claimId);
    const claim = await findClaimToActOn(claimId, db);
    if (!claim) return { ok: false, reason: "not-found" };
    if (claim.stage !== "awaiting_checks") return { ok: false, reason: "not-legal-here", stage: claim.stage };
    const { contactEmail } = claim;
    if (contactEmail === null) return { ok: false, reason: "no-mail" };
    if ((await countOpenCheckRequests(db, claimId)) === 0) return { ok: false, reason: "no-open-check" };
    const settings = await loadSettings(db);
    const mail = await mailTo(db, { ...claim, contactName: claim.contactName ?? "", contactEmail }, settings, now, reminderMail);
    const isNew = await queueMail(db, { onceKey: `remind-now:${claimId}:${dayOf(now, settings.timeZone)}`, ...mail });
    if (!isNew) return { ok: false, reason: "reminded-today" };
    await appendAudit(db, { actor: auditActor(actor), action: "remind_of_checks", claimId });
    return { ok: true };
  });
}

const dayOf = (now: Date, timeZone: string) => new Intl.DateTimeFormat("sv-SE", { timeZone, dateStyle: "short" }).format(now);

export type HoldLapseResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "changed-meanwhile" };

/** Keeps a claim that waits for answers from being reminded of and from lapsing, or lets it go again: then all days count from now. */
export async function holdLapse(actor: StaffActor, claimId: string, isHeld: boolean, now: Date = new Date()): Promise<HoldLapseResult> {
  const refused = await refuse(actor, "ask for a check", claimId);
  if (refused) return refused;
  return inTransaction(async (db): Promise<HoldLapseResult> => {
    await lockClaim(db, claimId);
    if (!(await findClaimToActOn(claimId, db))) return { ok: false, reason: "not-found" };
    if (!(await updateLapseHeld(db, claimId, isHeld ? now : null))) return { ok: false, reason: "changed-meanwhile" };
    if (isHeld) await appendAudit(db, { actor: auditActor(actor), action: "hold_lapse", claimId });
    else await appendAudit(db, { actor: auditActor(actor), action: "release_lapse", claimId });
    return { ok: true };
  });
}
