import "server-only";
import { randomBytes } from "node:crypto";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findFirstPlace, findParcel, insertHandover, insertParcel } from "@/lib/data/custody";
import { findReturn } from "@/lib/data/returns";
import { makeReference } from "@/lib/domain/claims/reference";
import { readScanned } from "@/lib/domain/claims/scanned-number";
import type { strayParcelSchema } from "@/lib/inputs/custody";
import { auditActor, refuse, type Refusal } from "./refusal";

export type TakeInParcelResult = { ok: true; number: string } | Refusal | { ok: false; reason: "no-quarantine" | "unknown-number" };

/**
 * A parcel that is not the unit of a return: without a number, second under one number, or with something else in it. It
 * gets a number of its own and waits in quarantine, with what stands on it, until somebody says whose it is. Nothing that
 * comes is sent away at the door.
 */
export async function takeInParcel(actor: StaffActor, { id, returnNumber, reason, holds, serial, sender, condition, note }: z.output<typeof strayParcelSchema>, now: Date = new Date()): Promise<TakeInParcelResult> {
  const refused = await refuse(actor, "hand over a unit");
  if (refused) return refused;
  return inTransaction(async (db) => {
    const before = await findParcel({ id }, db);
    if (before) return { ok: true, number: before.number };
    const quarantine = await findFirstPlace(db, "quarantine");
    if (!quarantine) return { ok: false, reason: "no-quarantine" };
    const scanned = returnNumber ? readScanned(returnNumber) : null;
    const cameUnder = scanned?.is === "return" ? await findReturn(db, { number: scanned.number }) : null;
    if (!cameUnder && (returnNumber || reason !== "no_number")) return { ok: false, reason: "unknown-number" };
    const claimId = cameUnder?.claimId ?? null;
    const number = `P-${makeReference(randomBytes(64))}`;
    await insertParcel(db, { id, number, reason, claimId, holds, sender }, { serial: serial || null, receivedById: actor.personId, arrivedAt: now });
    await insertHandover(db, { parcelId: id, number: 1, at: now, personId: actor.personId, fromCode: null, toCode: quarantine.code, condition, note });
    await appendAudit(db, { actor: auditActor(actor), action: "take_in_parcel", ...(claimId ? { claimId } : {}), detail: { number, why: reason } });
    return { ok: true, number };
  });
}
