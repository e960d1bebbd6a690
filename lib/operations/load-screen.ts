import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { type Draft, findDraft } from "@/lib/data/drafts";
import { loadEditionInForce } from "@/lib/data/editions";
import { findShipmentsOfOrder, listKits, listVehicles } from "@/lib/data/purchases";
import { loadSettings } from "@/lib/data/settings";
import type { Language } from "@/lib/domain/claims/languages";
import { FIRST_UNIT_SYSTEM, type UnitSystem } from "@/lib/domain/claims/unit-systems";
import { type Caution, cautionInWords, stopEngineInWords } from "@/lib/domain/diagnosis/cautions";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { answer, type IntakeAnswers, type Screen } from "@/lib/domain/intake/answers";
import type { IntakeScreen } from "@/lib/domain/intake/fields";
import { firstOpenScreen, isBegun, mayShow, mostQuestionsAfter, screensBefore } from "@/lib/domain/intake/intake-path";
import { fuelTold, type IntakeState, NOTHING_KNOWN } from "@/lib/domain/intake/questions";
import { cautionsOf, type Choices, describeScreen } from "@/lib/domain/intake/screens";
import { stopFromAnswers } from "@/lib/domain/intake/stop-from-answers";
import { valuesOf } from "@/lib/domain/intake/told-checks";
import { withUnitsFirst } from "@/lib/domain/intake/units-first";
import type { Say } from "@/lib/domain/say";
import { dayInShort } from "@/lib/messages/dates";
import { sayIn } from "@/lib/messages/words";
import { editionFor, type Reader } from "./edition-for-reader";
import { loadBasis } from "./intake-basis";

export interface ShownScreen {
  ok: true;
  described: IntakeScreen;
  values: Readonly<Record<string, string>>;
  /** The screen before; null at the first. */
  before: Screen | null;
  mostAfter: number;
  /** Why the engine must stand still, as far as answered. */
  stop: Caution | null;
  /** The answer just given says so: here it is read for the first time. */
  stopIsNew: boolean;
  /** Those of its cautions that a screen before has told in full. */
  read: readonly Caution[];
  /** Nobody has said that it burns petrol: it could run away on oil in its air side. */
  mayBeDiesel: boolean;
  /** Null before the first answer is saved. */
  reference: string | null;
  units: UnitSystem;
  /** What is asked first is answered, so that there are checks to advise. */
  hasAdvice: boolean;
}

/**
 * One screen of the intake as it stands. Without a draft only the first is shown: saving it begins one.
 *
 * @returns the screen to go to instead (null: the review) when this one is not to be shown yet
 */
export async function loadScreen(actor: CustomerActor | null, screen: Screen, language: Language): Promise<ShownScreen | { ok: false; reason: "not-yet"; goTo: Screen | null }> {
  const draft = actor && (await findDraft(actor.claimId));
  const state: IntakeState = draft ?? { answers: {}, purchase: NOTHING_KNOWN };
  const [basis, reader] = [await loadBasis(), { language, units: actor?.units ?? FIRST_UNIT_SYSTEM }];
  if (!mayShow(screen, state, basis)) return { ok: false, reason: "not-yet", goTo: firstOpenScreen(state, basis) };
  const behind = screensBefore(screen, state, basis);
  const before = behind.at(-1) ?? null;
  const read = new Set(behind.flatMap((one) => cautionsOf(one, basis.edition)));
  const described = await describeForDraft(screen, state, reader);
  return {
    ok: true,
    described: { ...described, cautions: described.cautions.filter((code) => !read.has(code)) },
    read: described.cautions.filter((code) => read.has(code)).map((code) => cautionInWords(code, sayIn(language))),
    values: valuesOf(screen, state.answers),
    before,
    mostAfter: mostQuestionsAfter(screen, state, basis),
    stop: stopInWords(state, basis.edition, language),
    stopIsNew: before !== null && stopFromAnswers({ ...state, answers: answersBut(before, state.answers) }, basis.edition) === null,
    mayBeDiesel: fuelTold(state) !== "petrol",
    reference: draft?.reference ?? null,
    units: reader.units,
    hasAdvice: isBegun(state, basis.edition),
  };
}

/** Where an intake goes on: its first open screen, or null for the review. */
export async function loadPlaceInIntake(actor: CustomerActor): Promise<Screen | null> {
  const draft = await findDraft(actor.claimId);
  return draft ? firstOpenScreen(draft, await loadBasis()) : null;
}

/** A screen in full, with what the catalogue offers on it. Part of other operations, which have checked who asks. */
export async function describeForDraft(screen: Screen, state: IntakeState, reader: Reader): Promise<IntakeScreen> {
  const [edition, settings, choices] = await Promise.all([loadEditionInForce(), loadSettings(), choicesOf(screen, state, reader.language)]);
  return described(screen, state, editionFor(editionForFuel(edition, fuelTold(state)), reader), choices, todayIn(settings.timeZone, new Date()), reader);
}

/** Why the engine must stand still, as far as the answers tell, in words. Part of other operations. */
export function stopInWords(state: IntakeState, edition: Edition, language: Language): Caution | null {
  const stop = stopFromAnswers(state, edition);
  return stop && stopEngineInWords(stop.reason, sayIn(language));
}

/** Every screen that is asked, described, for the review and for the last check before filing. */
export async function describeAll(screens: readonly Screen[], draft: Draft, edition: Edition, now: Date, reader: Reader): Promise<Map<Screen, IntakeScreen>> {
  const settings = await loadSettings();
  const worded = editionFor(edition, reader);
  const all = await Promise.all(
    screens.map(async (screen) => [screen, described(screen, draft, worded, await choicesOf(screen, draft, reader.language), todayIn(settings.timeZone, now), reader)] as const),
  );
  return new Map(all);
}

function answersBut(screen: Screen, { [screen]: _, ...others }: IntakeAnswers): IntakeAnswers {
  return others;
}

function described(screen: Screen, state: IntakeState, worded: Edition, choices: Choices, today: string, { language, units }: Reader): IntakeScreen {
  return withUnitsFirst(describeScreen(screen, state, worded, choices, today, sayIn(language)), units);
}

async function choicesOf(screen: Screen, { answers, purchase }: IntakeState, language: Language): Promise<Choices> {
  const none = { kits: [], vehicles: [], items: [] };
  if (screen === "kit") return { ...none, kits: await listKits() };
  if (screen === "vehicle") return { ...none, vehicles: await listVehicles(purchase.kitId) };
  if (screen !== "item") return none;
  const shipments = await findShipmentsOfOrder(answer(answers, "order", "number") ?? "", answer(answers, "order", "email") ?? "");
  return {
    ...none,
    items: shipments.map(({ id, kitRevision, unit, shippedOn }) => ({
      id,
      name: itemInWords({ kit: `${kitRevision.kit.code} ${kitRevision.kit.name}`, serial: unit?.serial ?? null, day: dayInShort(shippedOn, language) }, sayIn(language)),
    })),
  };
}

function itemInWords({ kit, serial, day }: { kit: string; serial: string | null; day: string }, say: Say): string {
  return serial === null ? say("intake.item.name", { kit, day }) : say("intake.item.nameWithSerial", { kit, serial, day });
}

/** The calendar day in a zone, `2026-11-25`. */
function todayIn(timeZone: string, now: Date): string {
  return new Intl.DateTimeFormat("sv-SE", { timeZone, dateStyle: "short" }).format(now);
}
