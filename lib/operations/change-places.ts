import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { insertPlace, type KeptPlace, listPlaces, updatePlace } from "@/lib/data/custody";
import { lockSettings } from "@/lib/data/settings";
import type { placeSchema } from "@/lib/inputs/custody";
import { auditActor, refuse, type Refusal } from "./refusal";

/** The places a unit may lie at, with those given up. */
export async function loadPlaces(actor: StaffActor): Promise<{ ok: true; places: readonly KeptPlace[] } | Refusal> {
  const refused = await refuse(actor, "change the settings");
  return refused ?? { ok: true, places: await listPlaces() };
}

/** Another shelf, or another bench. */
export async function addPlace(actor: StaffActor, place: z.output<typeof placeSchema>): Promise<{ ok: true } | Refusal | { ok: false; reason: "code-taken" }> {
  const refused = await refuse(actor, "change the settings");
  if (refused) return refused;
  return inTransaction(async (db) => {
    if (!(await insertPlace(db, place))) return { ok: false, reason: "code-taken" };
    await appendAudit(db, { actor: auditActor(actor), action: "add_place", detail: { place: place.code } });
    return { ok: true };
  });
}

/**
 * Nothing is brought there any more, or again. What lies there is still found there, and its barcode still read. Of the
 * places where parcels come in, and of quarantine, one is kept: whatever arrives needs somewhere to go.
 */
export async function retirePlace(actor: StaffActor, code: string, isRetired: boolean, now: Date = new Date()): Promise<{ ok: true } | Refusal | { ok: false; reason: "not-found" | "last-of-its-kind" }> {
  const refused = await refuse(actor, "change the settings");
  if (refused) return refused;
  return inTransaction(async (db) => {
    // One at a time: of the last two doors, two people would each give up one.
    await lockSettings(db);
    const places = await listPlaces(db);
    const place = places.find((one) => one.code === code);
    if (!place) return { ok: false, reason: "not-found" };
    const isNeeded = place.kind === "door" || place.kind === "quarantine";
    if (isRetired && isNeeded && !places.some((one) => one.kind === place.kind && one.code !== code && one.retiredAt === null)) return { ok: false, reason: "last-of-its-kind" };
    await updatePlace(db, code, { retiredAt: isRetired ? now : null });
    await appendAudit(db, { actor: auditActor(actor), action: isRetired ? "retire_place" : "reopen_place", detail: { place: code } });
    return { ok: true };
  });
}
