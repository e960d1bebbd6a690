import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { loadSettings, lockSettings, type SellerSettings, updateSettings } from "@/lib/data/settings";
import { fingerprintOf } from "./fingerprint";
import { auditActor, refuse, type Refusal } from "./refusal";

export type ChangeSettingsResult =
  | { ok: true }
  | Refusal
  /** Somebody else changed them since they were read: nothing is overwritten. */
  | { ok: false; reason: "changed-meanwhile"; seen: string };

/** The settings, for whoever may change them, with the fingerprint of what they saw. */
export async function loadSettingsToChange(actor: StaffActor): Promise<{ ok: true; settings: SellerSettings; seen: string } | Refusal> {
  const refused = await refuse(actor, "change the settings");
  if (refused) return refused;
  const settings = await loadSettings();
  return { ok: true, settings, seen: fingerprintOf(settings) };
}

/**
 * Changes the seller's settings: they hold for what is promised, written and booked from now on.
 *
 * @param seen fingerprint of the settings the person read
 */
export async function changeSettings(actor: StaffActor, settings: SellerSettings, seen: string): Promise<ChangeSettingsResult> {
  const refused = await refuse(actor, "change the settings");
  if (refused) return refused;
  return inTransaction(async (db): Promise<ChangeSettingsResult> => {
    const before = await lockSettings(db);
    const now = fingerprintOf(before);
    if (now !== seen) return { ok: false, reason: "changed-meanwhile", seen: now };
    const changed = (Object.keys(settings) as (keyof SellerSettings)[]).filter((name) => String(settings[name]) !== String(before[name]));
    await updateSettings(db, settings);
    await appendAudit(db, { actor: auditActor(actor), action: "change_settings", detail: { changed } });
    return { ok: true };
  });
}
