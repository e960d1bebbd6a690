import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { loadSettings, type SellerSettings, updateSettings } from "@/lib/data/settings";
import { auditActor, refuse, type Refusal } from "./refusal";

/** The settings, for whoever may change them. */
export async function loadSettingsToChange(actor: StaffActor): Promise<{ ok: true; settings: SellerSettings } | Refusal> {
  const refused = await refuse(actor, "change the settings");
  if (refused) return refused;
  return { ok: true, settings: await loadSettings() };
}

/** Changes the seller's settings: they hold for what is promised, written and booked from now on. */
export async function changeSettings(actor: StaffActor, settings: SellerSettings): Promise<{ ok: true } | Refusal> {
  const refused = await refuse(actor, "change the settings");
  if (refused) return refused;
  const before = await loadSettings();
  const changed = (Object.keys(settings) as (keyof SellerSettings)[]).filter((name) => String(settings[name]) !== String(before[name]));
  await inTransaction(async (db) => {
    await updateSettings(db, settings);
    await appendAudit(db, { actor: auditActor(actor), action: "change_settings", detail: { changed } });
  });
  return { ok: true };
}
