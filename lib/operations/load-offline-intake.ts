import "server-only";
import { loadEditionInForce } from "@/lib/data/editions";
import { listKits, listPairs, listVehicles } from "@/lib/data/purchases";
import type { Staging } from "@/lib/domain/catalogue/entries";
import type { Language } from "@/lib/domain/claims/languages";
import { editionInLanguage } from "@/lib/domain/diagnosis/edition-in-language";
import { type Screen, SCREENS } from "@/lib/domain/intake/answers";
import type { IntakeField, IntakeScreen } from "@/lib/domain/intake/fields";
import { type AskedFindings, FINDINGS_ASKED, NOTHING_KNOWN } from "@/lib/domain/intake/questions";
import { describeScreen, DONT_KNOW, pairFields } from "@/lib/domain/intake/screens";
import { sayIn } from "@/lib/messages/words";

/** Every question of the edition in force: what a device needs to go on without us. Nothing in it is about anybody. */
export interface OfflineIntake {
  /** Of the edition, for telling one copy from the next. */
  edition: number;
  /** As an owner and as a technician is asked. */
  screens: readonly { screen: Screen; owner: IntakeScreen; technician: IntakeScreen }[];
  asked: AskedFindings;
  pairs: readonly PairAsked[];
}

/** What is asked beside the place of the oil where one of these kits was picked, and one of these vehicles, null for any. */
export interface PairAsked {
  kits: readonly string[];
  vehicles: readonly string[] | null;
  fields: readonly IntakeField[];
}

/** All questions of the intake in the standing order, with what the catalogue offers. Open to anybody. */
export async function loadOfflineIntake(language: Language): Promise<OfflineIntake> {
  const [edition, kits, vehicles, pairs] = await Promise.all([loadEditionInForce(), listKits(), listVehicles(null), listPairs()]);
  const worded = editionInLanguage(edition, language);
  const say = sayIn(language);
  // The device has its own clock; this only has to lie behind nobody's day.
  const today = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);
  const as = (who: string, screen: Screen) => describeScreen(screen, { answers: { who: { who } }, purchase: NOTHING_KNOWN }, worded, { kits, vehicles, items: [] }, today, say);
  const kitsOf = (wanted: Staging | null) => pairs.kits.flatMap(({ id, staging }) => (staging === wanted ? [id] : []));
  const asked = new Set(Object.values(FINDINGS_ASKED).flat());
  return {
    edition: edition.number,
    screens: SCREENS.filter((screen) => screen !== "item").map((screen) => ({ screen, owner: as("owner", screen), technician: as("technician", screen) })),
    asked: { findings: edition.findings.filter(({ code }) => asked.has(code)).map(({ code, askedWhen }) => ({ code, ...(askedWhen ? { askedWhen } : {}) })) },
    pairs: [
      ...(["low_pressure", "high_pressure"] as const).map((staging) => ({ kits: kitsOf(staging), vehicles: null, fields: pairFields(staging, say) })),
      { kits: [DONT_KNOW, ...kitsOf(null)], vehicles: pairs.vehicles, fields: pairFields(null, say) },
    ],
  };
}

/** Open to anybody. */
export async function editionNumberInForce(): Promise<number> {
  return (await loadEditionInForce()).number;
}
