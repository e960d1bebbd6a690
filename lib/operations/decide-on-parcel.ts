import "server-only";
import { randomBytes } from "node:crypto";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { closeKeptParcel, findParcel, giveParcelToReturn, lockParcel } from "@/lib/data/custody";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { moveReturn } from "@/lib/data/move-return";
import { findClaimIdByNumber, findOpenReturn, insertReturn } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { transition } from "@/lib/domain/claims/lifecycle";
import { makeReference } from "@/lib/domain/claims/reference";
import { readScanned } from "@/lib/domain/claims/scanned-number";
import type { parcelClosingSchema, parcelMatchSchema } from "@/lib/inputs/custody";
import { auditActor, refuse, type Refusal } from "./refusal";

export type MatchParcelResult = { ok: true; claimId: string } | Refusal | { ok: false; reason: "not-found" | "unknown-number" | "decided-meanwhile" | "unit-is-here" };

/**
 * The parcel holds the unit of this claim after all: by the reference of the claim or the number of its return. A claim
 * that never asked for its unit gets a return with it, and an open one waits for the bench.
 */
export async function matchParcel(actor: StaffActor, parcelId: string, { reference }: z.output<typeof parcelMatchSchema>, now: Date = new Date()): Promise<MatchParcelResult> {
  const refused = await refuse(actor, "authorise a return");
  if (refused) return refused;
  const seller = await loadSettings();
  return inTransaction(async (db): Promise<MatchParcelResult> => {
    const scanned = readScanned(reference);
    const claimId = scanned?.is === "return" ? await findClaimIdByNumber(db, scanned.number) : null;
    if (!claimId) return { ok: false, reason: "unknown-number" };
    await lockClaim(db, claimId);
    await lockParcel(db, parcelId);
    const parcel = await findParcel({ id: parcelId }, db);
    if (!parcel) return { ok: false, reason: "not-found" };
    if (parcel.returnId || parcel.closedAt) return { ok: false, reason: "decided-meanwhile" };
    const open = await findOpenReturn(db, claimId);
    if (open?.receivedAt) return { ok: false, reason: "unit-is-here" };
    const expiresAt = new Date(now.getTime() + seller.returnWithinDays * 86_400_000);
    const returnId = open?.id ?? (await insertReturn(db, { claimId, number: `R-${makeReference(randomBytes(64))}`, authorisedById: actor.personId, authorisedAt: now, expiresAt })).id;
    await moveReturn(db, returnId, "receive", { receivedAt: now, serialSeen: parcel.serial });
    await giveParcelToReturn(db, parcelId, returnId);
    const by = { actor: auditActor(actor), detail: { number: parcel.number } };
    await appendAudit(db, { ...by, action: "match_parcel", claimId });
    const claim = await findClaimToActOn(claimId, db);
    if (claim && transition(claim.stage, "unit_after_all").ok) await moveClaim(db, claimId, "unit_after_all", by);
    return { ok: true, claimId };
  });
}

/** The parcel is nobody's unit: what becomes of it, in words. From then on it may leave the house. */
export async function closeParcel(actor: StaffActor, parcelId: string, { closing }: z.output<typeof parcelClosingSchema>, now: Date = new Date()): Promise<{ ok: true } | Refusal | { ok: false; reason: "decided-meanwhile" }> {
  const refused = await refuse(actor, "authorise a return");
  if (refused) return refused;
  return inTransaction(async (db) => {
    if (!(await closeKeptParcel(db, parcelId, { closedAt: now, closedById: actor.personId, closing }))) return { ok: false, reason: "decided-meanwhile" };
    const parcel = await findParcel({ id: parcelId }, db);
    await appendAudit(db, { actor: auditActor(actor), action: "close_parcel", ...(parcel?.claimId ? { claimId: parcel.claimId } : {}), detail: { number: parcel?.number ?? "", reason: closing } });
    return { ok: true };
  });
}
