import "server-only";
import { loadEditionInForce } from "@/lib/data/editions";
import { listKits, listVehicles } from "@/lib/data/purchases";
import type { Language } from "@/lib/domain/claims/languages";
import { editionInLanguage } from "@/lib/domain/diagnosis/edition-in-language";
import { type Screen, SCREENS } from "@/lib/domain/intake/answers";
import type { IntakeScreen } from "@/lib/domain/intake/fields";
import { type AskedFindings, FINDINGS_ASKED, NOTHING_KNOWN } from "@/lib/domain/intake/questions";
import { describeScreen } from "@/lib/domain/intake/screens";
import { sayIn } from "@/lib/messages/words";

/** Every question of the edition in force: what a device needs to go on without us. Nothing in it is about anybody. */
export interface OfflineIntake {
  /** Of the edition, for telling one copy from the next. */
  edition: number;
  /** As an owner and as a technician is asked. */
  screens: readonly { screen: Screen; owner: IntakeScreen; technician: IntakeScreen }[];
  asked: AskedFindings;
}

/** All questions of the intake in the standing order, with what the catalogue offers. Open to anybody. */
export async function loadOfflineIntake(language: Language): Promise<OfflineIntake> {
  const [edition, kits, vehicles] = await Promise.all([loadEditionInForce(), listKits(), listVehicles(null)]);
  const worded = editionInLanguage(edition, language);
  const say = sayIn(language);
  // The device has its own clock; this only has to lie behind nobody's day.
  const today = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);
  const as = (who: string, screen: Screen) => describeScreen(screen, { answers: { who: { who } }, purchase: NOTHING_KNOWN }, worded, { kits, vehicles, items: [] }, today, say);
  const asked = new Set(Object.values(FINDINGS_ASKED).flat());
  return {
    edition: edition.number,
    screens: SCREENS.filter((screen) => screen !== "item").map((screen) => ({ screen, owner: as("owner", screen), technician: as("technician", screen) })),
    asked: { findings: edition.findings.filter(({ code }) => asked.has(code)).map(({ code, askedWhen }) => ({ code, ...(askedWhen ? { askedWhen } : {}) })) },
  };
}

/** Open to anybody. */
export async function editionNumberInForce(): Promise<number> {
  return (await loadEditionInForce()).number;
}
