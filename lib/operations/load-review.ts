import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { findDraft } from "@/lib/data/drafts";
import { listKits, listVehicles } from "@/lib/data/purchases";
import type { Caution } from "@/lib/domain/diagnosis/cautions";
import type { Screen } from "@/lib/domain/intake/answers";
import { firstOpenScreen, screensToAsk } from "@/lib/domain/intake/intake-path";
import { screenName } from "@/lib/domain/intake/screens";
import { type ShownAnswer, shownAnswers } from "@/lib/domain/intake/shown-answers";
import type { Say } from "@/lib/domain/say";
import { sayIn } from "@/lib/messages/words";
import { loadBasis } from "./intake-basis";
import { describeAll, stopInWords } from "./load-screen";

export interface Review {
  ok: true;
  reference: string;
  screens: readonly { screen: Screen; name: string; answers: readonly ShownAnswer[] }[];
  /** What the purchase has told without being asked. */
  known: readonly { name: string; value: string; changeOn: Screen }[];
  /** Why the engine must stand still. */
  stop: Caution | null;
}

/** Everything answered in the customer's own draft, to be read once more before it is filed. */
export async function loadReview(actor: CustomerActor): Promise<Review | { ok: false; reason: "already-filed" } | { ok: false; reason: "not-yet"; goTo: Screen }> {
  const draft = await findDraft(actor.claimId);
  if (!draft) return { ok: false, reason: "already-filed" };
  const basis = await loadBasis();
  const open = firstOpenScreen(draft, basis);
  if (open) return { ok: false, reason: "not-yet", goTo: open };
  const asked = screensToAsk(draft, basis);
  const { edition } = basis;
  const described = await describeAll(asked, draft, edition, new Date(), actor);
  const say = sayIn(actor.language);
  return {
    ok: true,
    reference: draft.reference,
    screens: asked.map((screen) => ({ screen, name: screenName(screen, say), answers: shownAnswers(described.get(screen)?.fields ?? [], draft.answers[screen] ?? {}) })),
    known: await knownOf(draft, asked, say),
    stop: stopInWords(draft, edition, actor.language),
  };
}

async function knownOf(draft: NonNullable<Awaited<ReturnType<typeof findDraft>>>, asked: readonly Screen[], say: Say): Promise<Review["known"]> {
  const { kitId, vehicleId } = draft.purchase;
  const [kits, vehicles] = await Promise.all([kitId ? listKits() : [], vehicleId ? listVehicles(null) : []]);
  const kit = kits.find(({ id }) => id === kitId);
  const vehicle = vehicles.find(({ id }) => id === vehicleId);
  return [
    ...(kit && !asked.includes("kit") ? [{ name: say("intake.kit.kit"), value: kit.name, changeOn: "purchase" as const }] : []),
    ...(vehicle && !asked.includes("vehicle") ? [{ name: say("intake.vehicle.vehicle"), value: vehicle.name, changeOn: "vehicle" as const }] : []),
  ];
}
