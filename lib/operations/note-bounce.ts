import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { findBounce, markMailBounced, markReached } from "@/lib/data/outgoing-mail";
import { may } from "@/lib/domain/claims/permissions";
import { env } from "@/lib/env";
import { readBounceReport } from "@/lib/mail/bounce-report";
import { auditActor, type Refusal, refuse } from "./refusal";

/** A server refused a mail of ours for good: it is not tried again, and staff are shown that the customer has to be called. */
export async function noteBounce(mailId: string, reason: string, now: Date = new Date()): Promise<{ ok: true } | { ok: false; reason: "unknown-mail" }> {
  return inTransaction(async (db) => {
    const bounced = await markMailBounced(db, mailId, reason, now);
    if (!bounced) return { ok: false, reason: "unknown-mail" };
    if (bounced.claimId) await appendAudit(db, { actor: { kind: "system" }, action: "bounce_mail", claimId: bounced.claimId });
    return { ok: true };
  });
}

export type TakeBounceReportResult = { ok: true } | { ok: false; reason: "no-report" | "unknown-mail" };

/** A report that the mail server passes on, as it came. Which mail it is about stands in the Message-ID that we gave it. */
export async function takeBounceReport(raw: string, now: Date = new Date()): Promise<TakeBounceReportResult> {
  const report = readBounceReport(raw);
  if (!report) return { ok: false, reason: "no-report" };
  const [mailId = "", host] = report.messageId.split("@");
  if (host !== new URL(env.APP_ORIGIN).hostname || !/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(mailId)) return { ok: false, reason: "unknown-mail" };
  return noteBounce(mailId, report.reason, now);
}

export interface ShownBounce {
  /** Null for whoever may not see the customer. */
  address: string | null;
  subject: string;
  at: Date;
  reason: string;
}

/** The mail of a claim that did not reach its customer, until they are reached otherwise; null where all mail got through. */
export async function loadBounce(actor: StaffActor, claimId: string): Promise<{ ok: true; bounce: ShownBounce | null } | Refusal> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const bounce = await findBounce(claimId);
  const address = bounce && may(actor.role, "see the customer") ? bounce.toAddress : null;
  return { ok: true, bounce: bounce?.bouncedAt ? { address, subject: bounce.subject, at: bounce.bouncedAt, reason: address ? (bounce.lastError ?? "") : "" } : null };
}

export type SayReachedResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "changed-meanwhile" };

/** Somebody has reached the customer otherwise, by telephone say: the queue no longer asks for it. */
export async function sayReached(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<SayReachedResult> {
  const refused = await refuse(actor, "write a message", claimId);
  if (refused) return refused;
  return inTransaction(async (db): Promise<SayReachedResult> => {
    if (!(await findClaimToActOn(claimId, db))) return { ok: false, reason: "not-found" };
    if (!(await markReached(db, claimId, now))) return { ok: false, reason: "changed-meanwhile" };
    await appendAudit(db, { actor: auditActor(actor), action: "reach_customer", claimId });
    return { ok: true };
  });
}
