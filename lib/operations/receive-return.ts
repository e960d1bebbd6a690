import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { findFirstPlace, insertHandover, insertParcel } from "@/lib/data/custody";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { moveReturn } from "@/lib/data/move-return";
import { findReturn } from "@/lib/data/returns";
import { transition } from "@/lib/domain/claims/lifecycle";
import { parcelNumberOf } from "@/lib/domain/claims/parcels";
import { matchSerials, type SerialMatch } from "@/lib/domain/claims/serials";
import type { receiptSchema } from "@/lib/inputs/custody";
import { auditActor, refuse, type Refusal } from "./refusal";

export type ReceiveReturnResult = { ok: true; serial: SerialMatch } | Refusal | { ok: false; reason: "not-found" | "not-expected" | "no-door" };

/**
 * The unit is here, at the door, with the serial that is read on it. Another serial is taken in too, and said; both units of
 * a pair come under one return. One whose
 * return had run out is welcome: an open claim waits for it again, so that nobody decides before the bench has looked.
 */
export async function receiveReturn(actor: StaffActor, { returnId, serialSeen, otherSerialSeen, condition, note }: z.output<typeof receiptSchema>, now: Date = new Date()): Promise<ReceiveReturnResult> {
  const refused = await refuse(actor, "hand over a unit");
  if (refused) return refused;
  const seen = { serialSeen: serialSeen || null, otherSerialSeen: otherSerialSeen || null };
  return inTransaction(async (db) => {
    const expected = await findReturn(db, { id: returnId });
    if (!expected) return { ok: false, reason: "not-found" };
    const { claimId, number } = expected;
    await lockClaim(db, claimId);
    const door = await findFirstPlace(db, "door");
    if (!door) return { ok: false, reason: "no-door" };
    const moved = await moveReturn(db, returnId, "receive", { receivedAt: now, ...seen });
    if (!moved.ok) return { ok: false, reason: "not-expected" };
    const parcel = await insertParcel(db, { number: parcelNumberOf(number), returnId }, { serial: serialSeen || null, receivedById: actor.personId, arrivedAt: now });
    await insertHandover(db, { parcelId: parcel.id, number: 1, at: now, personId: actor.personId, fromCode: null, toCode: door.code, condition: condition ?? null, note: note ?? "" });
    const serial = matchSerials({ ...expected, ...seen });
    const by = { actor: auditActor(actor), detail: { serial } };
    await appendAudit(db, { ...by, action: "return_received", claimId });
    if (moved.from === "expired") {
      const claim = await findClaimToActOn(claimId, db);
      if (claim && transition(claim.stage, "unit_after_all").ok) await moveClaim(db, claimId, "unit_after_all", by);
    }
    return { ok: true, serial };
  });
}
