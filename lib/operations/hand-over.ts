import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findParcel, findPlace, insertHandover, type KeptParcel, lockParcel } from "@/lib/data/custody";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveReturn } from "@/lib/data/move-return";
import { type Custody, eventOfStep, nextPlaces } from "@/lib/domain/claims/custody";
import type { handoverSchema } from "@/lib/inputs/custody";
import { auditActor, refuse, type Refusal } from "./refusal";

export type HandOverResult =
  | { ok: true; to: string }
  | Refusal
  | { ok: false; reason: "not-found" | "unknown-place" | "there-already" | "not-from-here" }
  /** Somebody else handed it over since the page was loaded. */
  | { ok: false; reason: "moved-meanwhile"; by: string; to: string };

/** A parcel as the rules of custody know it. */
export function custodyOf(parcel: KeptParcel): Custody {
  const at = parcel.handovers.at(-1)?.to.kind ?? null;
  if (parcel.return) return { is: "unit", state: parcel.return.state, at, disposition: parcel.return.dispositions[0]?.kind ?? null };
  return { is: "stray", isClosed: parcel.closedAt !== null, at };
}

/**
 * One step of custody: who brought the parcel where, when and in what state. Where it was found elsewhere than it was last
 * said to be, the step begins there and the gap stays visible.
 */
export async function handOver(actor: StaffActor, { parcelId, seen, to, found, condition, note }: z.output<typeof handoverSchema>, now: Date = new Date()): Promise<HandOverResult> {
  const refused = await refuse(actor, "hand over a unit");
  if (refused) return refused;
  return inTransaction(async (db) => {
    const claimId = (await findParcel({ id: parcelId }, db))?.return?.claimId;
    // In the order in which every operation takes them: the claim, then the parcel.
    if (claimId) await lockClaim(db, claimId);
    await lockParcel(db, parcelId);
    const parcel = await findParcel({ id: parcelId }, db);
    if (!parcel) return { ok: false, reason: "not-found" };
    const last = parcel.handovers.at(-1);
    // Sent twice, since no answer to the first came: it is done.
    if (last && last.number === seen + 1 && last.personId === actor.personId && last.to.code === to) return { ok: true, to: last.to.name };
    if (last && last.number !== seen) return { ok: false, reason: "moved-meanwhile", by: last.person.name, to: last.to.name };
    const place = await findPlace(db, to);
    const from = found ? await findPlace(db, found) : (last?.to ?? null);
    if (!place || (found && !from)) return { ok: false, reason: "unknown-place" };
    if (from?.code === place.code) return { ok: false, reason: "there-already" };
    const custody = custodyOf(parcel);
    if (!nextPlaces(custody).includes(place.kind)) return { ok: false, reason: "not-from-here" };
    const event = custody.is === "unit" ? eventOfStep(custody.state, place.kind) : null;
    if (event && parcel.returnId && !(await moveReturn(db, parcel.returnId, event)).ok) return { ok: false, reason: "not-from-here" };
    await insertHandover(db, { parcelId, number: (last?.number ?? 0) + 1, at: now, personId: actor.personId, fromCode: from?.code ?? null, toCode: place.code, condition, note });
    const about = parcel.return?.claimId ?? parcel.claimId;
    await appendAudit(db, { actor: auditActor(actor), action: "hand_over_unit", ...(about ? { claimId: about } : {}), detail: { to: place.code, place: place.name, isGap: found !== undefined && found !== last?.to.code } });
    return { ok: true, to: place.name };
  });
}
