import "server-only";
import type { CustomerActor, StaffActor } from "@/lib/access/actors";
import { appendAudit, type AuditLine } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { moveReturn } from "@/lib/data/move-return";
import { findOpenReturn } from "@/lib/data/returns";
import { transition } from "@/lib/domain/claims/lifecycle";
import type { Say } from "@/lib/domain/say";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { carriageFields } from "@/lib/inputs/send-in";
import { sayIn, toStaff } from "@/lib/messages/words";
import { auditActor, refuse, type Refusal } from "./refusal";

export type TellCarriageResult = { ok: true } | { ok: false; reason: "refused"; messages: Record<string, string> } | { ok: false; reason: "not-awaited" };

/** The customer has sent the unit: who carries it, and its number there. Told again, what was told before is corrected. */
export function tellCarriage(actor: CustomerActor, form: FormData, now: Date = new Date()): Promise<TellCarriageResult> {
  return setOut(actor.claimId, form, sayIn(actor.language), auditActor(actor), now);
}

/** The same, told to staff over the telephone. */
export async function recordCarriage(actor: StaffActor, claimId: string, form: FormData, now: Date = new Date()): Promise<TellCarriageResult | Refusal> {
  const refused = await refuse(actor, "authorise a return", claimId);
  return refused ?? setOut(claimId, form, toStaff, auditActor(actor), now);
}

/** A unit that sets out after its time is awaited again. */
async function setOut(claimId: string, form: FormData, say: Say, actor: AuditLine["actor"], now: Date): Promise<TellCarriageResult> {
  const fields = carriageFields(say);
  const parsed = screenSchema(fields, say).safeParse(typedValues(fields, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const { carrier = "", trackingNumber } = parsed.data;
  return inTransaction(async (db): Promise<TellCarriageResult> => {
    await lockClaim(db, claimId);
    const open = await findOpenReturn(db, claimId);
    if (!open) return { ok: false, reason: "not-awaited" };
    const sentAt = open.state === "in_carriage" ? {} : { sentAt: now };
    const moved = await moveReturn(db, open.id, "set_out", { carrier, trackingNumber: trackingNumber || null, ...sentAt });
    if (!moved.ok) return { ok: false, reason: "not-awaited" };
    await appendAudit(db, { actor, action: "return_set_out", claimId });
    const claim = await findClaimToActOn(claimId, db);
    if (moved.from === "expired" && claim && transition(claim.stage, "unit_after_all").ok) await moveClaim(db, claimId, "unit_after_all", { actor });
    return { ok: true };
  });
}
