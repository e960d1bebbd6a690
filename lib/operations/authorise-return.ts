import "server-only";
import { randomBytes } from "node:crypto";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { insertStaffMessage } from "@/lib/data/messages";
import { moveClaim, type MoveResult } from "@/lib/data/move-claim";
import { moveReturn } from "@/lib/data/move-return";
import { queueMail } from "@/lib/data/outgoing-mail";
import { findOpenReturn, insertReturn } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { makeReference } from "@/lib/domain/claims/reference";
import type { authorisationSchema } from "@/lib/inputs/returns";
import { returnMail } from "@/lib/mail/return-mails";
import { wordsIn } from "@/lib/messages/words";
import { auditActor, refuse, type Refusal } from "./refusal";
import { returnMailFacts } from "./return-mail-facts";
import { takeInPassing } from "./take-in-passing";

export type AuthoriseReturnResult =
  | { ok: true; number: string }
  | Refusal
  | { ok: false; reason: "not-found" }
  /** The customer has no address to write to. */
  | { ok: false; reason: "no-address" }
  /** Received before a verdict that was appealed: it need not be sent again. */
  | { ok: false; reason: "unit-is-here" }
  | Extract<MoveResult, { ok: false }>;

/**
 * Asks the customer to send the unit in: a return with a number and a last day, and a mail that says how. One that is still
 * awaited after an appeal, or that has run out, goes on: its number may stand on the parcel already.
 */
export async function authoriseReturn(actor: StaffActor, claimId: string, { version, note }: z.output<typeof authorisationSchema>, now: Date = new Date()): Promise<AuthoriseReturnResult> {
  const refused = await refuse(actor, "authorise a return", claimId);
  if (refused) return refused;
  const [claim, seller] = await Promise.all([findClaimToActOn(claimId), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  if (!claim.contactEmail) return { ok: false, reason: "no-address" };
  const to = { name: claim.contactName ?? "", address: claim.contactEmail };
  const expiresAt = new Date(now.getTime() + seller.returnWithinDays * 86_400_000);

  return inTransaction(async (db): Promise<AuthoriseReturnResult> => {
    await lockClaim(db, claimId);
    const open = await findOpenReturn(db, claimId);
    if (open?.receivedAt) return { ok: false, reason: "unit-is-here" };
    const number = open?.number ?? `R-${makeReference(randomBytes(64))}`;
    const moved = await moveClaim(
      db,
      claimId,
      "authorise_return",
      { actor: auditActor(actor), detail: { number } },
      { expectedVersion: version, changes: { firstAnswerAt: claim.firstAnswerAt ?? now } },
    );
    if (!moved.ok) return moved;
    await takeInPassing(db, actor, claimId);
    if (open) await moveReturn(db, open.id, "prolong", { expiresAt, remindedAt: null });
    else await insertReturn(db, { claimId, number, authorisedById: actor.personId, authorisedAt: now, expiresAt });
    if (note) await insertStaffMessage(db, { claimId, personId: actor.personId, body: note });
    const facts = await returnMailFacts(db, claim, { number, expiresAt }, seller, now);
    await queueMail(db, { onceKey: `return:${number}:${moved.version}`, claimId, to, ...returnMail({ ...facts, note, pairUnit: claim.pairUnit }, wordsIn(claim.language)) });
    return { ok: true, number };
  });
}
