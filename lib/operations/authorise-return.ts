import "server-only";
import { randomBytes } from "node:crypto";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { insertStaffMessage } from "@/lib/data/messages";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim, type MoveResult } from "@/lib/data/move-claim";
import { queueMail } from "@/lib/data/outgoing-mail";
import { extendReturn, findOpenReturn, insertReturn } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { makeReference } from "@/lib/domain/claims/reference";
import type { authorisationSchema } from "@/lib/inputs/returns";
import { returnMail } from "@/lib/mail/return-mails";
import { newClaimLink } from "./claim-links";
import { auditActor, refuse, type Refusal } from "./refusal";
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
 * Asks the customer to send the unit in: a return with a number and a last day, and a mail that says how. One that was
 * authorised before an appeal and is still awaited goes on: its number may stand on the parcel already.
 */
export async function authoriseReturn(actor: StaffActor, claimId: string, { version, note }: z.output<typeof authorisationSchema>, now: Date = new Date()): Promise<AuthoriseReturnResult> {
  const refused = await refuse(actor, "authorise a return", claimId);
  if (refused) return refused;
  const [claim, seller] = await Promise.all([findClaimToActOn(claimId), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  if (!claim.contactEmail) return { ok: false, reason: "no-address" };
  const to = { name: claim.contactName ?? "", address: claim.contactEmail };
  const expiresAt = new Date(now.getTime() + seller.returnWithinDays * 86_400_000);
  const until = new Intl.DateTimeFormat("en-GB", { dateStyle: "full", timeZone: seller.timeZone }).format(expiresAt);

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
    if (open) await extendReturn(db, open.id, expiresAt);
    else await insertReturn(db, { claimId, number, authorisedById: actor.personId, authorisedAt: now, expiresAt });
    if (note) await insertStaffMessage(db, { claimId, personId: actor.personId, body: note });
    const link = await newClaimLink(db, claim, now);
    await queueMail(db, { onceKey: `return:${number}:${moved.version}`, claimId, to, ...returnMail({ name: to.name, reference: claim.reference, number, until, note, link, seller }) });
    return { ok: true, number };
  });
}
