import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { intakeCustomerByKey } from "@/lib/access/customer";
import { DRAFT_DAYS } from "@/lib/domain/claims/key-days";
import { database } from "@/lib/data/client";
import { findClaimByFilingKey } from "@/lib/data/drafts";
import type { Language } from "@/lib/domain/claims/languages";
import { type Screen, SCREENS } from "@/lib/domain/intake/answers";
import { DONT_KNOW, PAIR_UNIT } from "@/lib/domain/intake/screens";
import { formOf } from "@/lib/inputs/form";
import type { SentComplaint } from "@/lib/inputs/kept-complaint";
import { newFollowingKey } from "./claim-links";
import { fileClaim } from "./file-claim";
import { loadPlaceInIntake } from "./load-screen";
import { saveAnswer } from "./save-answer";
import { startDraft } from "./start-draft";

export type TakeInComplaintResult =
  /** Filed now or before: the same claim, with a key for this browser to follow it. */
  | { ok: true; isFiled: true; reference: string; key: string }
  /** Kept, but not filed: not asked to, or a question is open. `draftKey`: for this browser, where it has none yet. */
  | { ok: true; isFiled: false; reference: string; draftKey: string | null; goTo: Screen | null }
  /** Another complaint is open in this browser; the one sent waits with us until that is filed. */
  | { ok: false; reason: "another-open" }
  | { ok: false; reason: "wait" | "refused" };

/** Who writes the complaint that was sent: a draft, or the claim it has become. */
type Writer = { claimId: string; reference: string; draft: CustomerActor | null; draftKey: string | null };

/**
 * Takes in what a device has kept without a signal: its answers go through the same checks as any, and where the person
 * has sent it, it is filed. Sent twice, it is one claim: by the browser's key to the draft, or else by the filing key,
 * which the device has made and nobody else knows.
 *
 * @param here the intake that is open in this browser
 * @param caller for counting drafts, look-ups and filings
 */
export async function takeInComplaint(sent: SentComplaint, here: { actor: CustomerActor; isFiled: boolean } | null, caller: string, language: Language): Promise<TakeInComplaintResult> {
  const writer = await writerOf(sent, here, caller, language);
  if (typeof writer === "string") return { ok: false, reason: writer };
  if (!writer.draft) return { ok: true, isFiled: true, reference: writer.reference, key: await newFollowingKey(database(), writer.claimId, new Date()) };

  const screens = writer.draftKey === null ? sent.notSent : SCREENS;
  for (const screen of SCREENS.filter((one) => screens.includes(one))) {
    if (!(await keepAnswer(writer.draft, screen, sent.answers[screen], caller))) return { ok: false, reason: "wait" };
  }
  const filed = sent.isSent ? await fileClaim(writer.draft, caller) : null;
  if (filed?.ok) return { ok: true, isFiled: true, reference: filed.reference, key: filed.key };
  if (filed && filed.reason !== "incomplete") return { ok: false, reason: "wait" };
  if (writer.draftKey !== null && here && !here.isFiled) return { ok: false, reason: "another-open" };
  return { ok: true, isFiled: false, reference: writer.reference, draftKey: writer.draftKey, goTo: filed?.screen ?? (await loadPlaceInIntake(writer.draft)) };
}

async function writerOf({ filingKey, reference, answers }: SentComplaint, here: { actor: CustomerActor; isFiled: boolean } | null, caller: string, language: Language): Promise<Writer | "wait" | "refused"> {
  if (here && here.actor.reference === reference) return { claimId: here.actor.claimId, reference, draft: here.isFiled ? null : here.actor, draftKey: null };
  const begun = await findClaimByFilingKey(filingKey);
  if (begun && begun.stage !== "draft") {
    // The device keeps nothing for longer.
    return Date.now() - begun.createdAt.getTime() < DRAFT_DAYS * 86_400_000 ? { claimId: begun.id, reference: begun.reference, draft: null, draftKey: null } : "refused";
  }
  const started = await startDraft(formOf(answers.who ?? {}), filingKey, caller, language);
  if (!started.ok) return started.reason === "refused" ? "refused" : "wait";
  const customer = await intakeCustomerByKey(started.key);
  return customer && !customer.isFiled ? { claimId: customer.actor.claimId, reference: customer.actor.reference, draft: customer.actor, draftKey: started.key } : "wait";
}

/** Keeps one screen's answers; false when they have to be sent again later. What is refused is asked again, on its screen. */
async function keepAnswer(draft: CustomerActor, screen: Screen, values: Readonly<Record<string, string>> | undefined, caller: string): Promise<boolean> {
  if (!values) return true;
  // What the device could not know to ask is not known.
  const saved = await saveAnswer(draft, screen, formOf({ [PAIR_UNIT]: DONT_KNOW, ...values }), caller);
  if (saved.ok) return true;
  // Nobody is there to correct it: the kit that was picked beside it counts.
  if (saved.reason === "no-such-order" || saved.reason === "no-such-serial") return (await saveAnswer(draft, screen, formOf({ ...values, goesOnWithout: "yes" }), caller)).ok;
  return saved.reason !== "too-many-tries" && saved.reason !== "changed-meanwhile";
}
