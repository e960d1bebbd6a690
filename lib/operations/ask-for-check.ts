import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { insertCheckRequest } from "@/lib/data/check-requests";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { database, inTransaction, isUniqueViolation } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { queueMail } from "@/lib/data/outgoing-mail";
import { findFuelOfClaim } from "@/lib/data/rankings";
import { loadSettings } from "@/lib/data/settings";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { cautionInWords, inOneText } from "@/lib/domain/diagnosis/cautions";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import { CHECK_NOTE_FIELDS } from "@/lib/inputs/check-request";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { checkAskedMail } from "@/lib/mail/desk-mails";
import { sayIn, toStaff, wordsIn } from "@/lib/messages/words";
import { newClaimLink } from "./claim-links";
import { editionFor } from "./edition-for-reader";
import { auditActor, type Refusal, refuse } from "./refusal";
import { takeInPassing } from "./take-in-passing";

export type AskForCheckResult =
  | { ok: true }
  | Refusal
  | { ok: false; reason: "not-found" | "unknown-check" | "not-for-this-customer" | "asked-already" | "changed-meanwhile" }
  | { ok: false; reason: "not-legal-here"; stage: ClaimStage }
  | { ok: false; reason: "refused"; messages: Record<string, string> };

/** Asks the customer to look at one thing: a request on their page, and a mail with a one-time link to it. */
export async function askForCheck(actor: StaffActor, claimId: string, findingCode: FindingCode, form: FormData, now: Date = new Date()): Promise<AskForCheckResult> {
  const refused = await refuse(actor, "ask for a check", claimId);
  if (refused) return refused;
  const [claim, edition, seller] = await Promise.all([findClaimToActOn(claimId), loadEditionInForce(), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  const definition = editionFor(editionForFuel(edition, await findFuelOfClaim(database(), claimId)), claim).findings.find(({ code }) => code === findingCode);
  if (!definition) return { ok: false, reason: "unknown-check" };
  if (!definition.observers.includes(claim.filedBy ?? "customer")) return { ok: false, reason: "not-for-this-customer" };
  const parsed = screenSchema(CHECK_NOTE_FIELDS, toStaff).safeParse(typedValues(CHECK_NOTE_FIELDS, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const note = parsed.data.note ?? "";
  const to = { name: claim.contactName ?? "", address: claim.contactEmail ?? "" };

  return inTransaction(async (db): Promise<AskForCheckResult> => {
    await lockClaim(db, claimId);
    const moved = await moveClaim(
      db,
      claimId,
      "ask_for_check",
      { actor: auditActor(actor), detail: { finding: findingCode } },
      { changes: { firstAnswerAt: claim.firstAnswerAt ?? now } },
    );
    if (!moved.ok) return moved;
    await takeInPassing(db, actor, claimId);
    const { id } = await insertCheckRequest(db, { claimId, findingCode, note, askedById: actor.personId });
    const mail = checkAskedMail(
      {
        name: to.name,
        reference: claim.reference,
        link: await newClaimLink(db, claim, now),
        seller,
        question: definition.question,
        why: definition.why,
        note,
        cautions: definition.cautions.map((code) => inOneText(cautionInWords(code, sayIn(claim.language)))),
      },
      wordsIn(claim.language),
    );
    await queueMail(db, { onceKey: `check:${id}`, claimId, to, ...mail });
    return { ok: true };
  }).catch((error: unknown): AskForCheckResult => {
    // The database holds that one check is open once; the move is rolled back with it.
    if (isUniqueViolation(error)) return { ok: false, reason: "asked-already" };
    throw error;
  });
}
