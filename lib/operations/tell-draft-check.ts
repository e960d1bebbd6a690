import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findDraft, updateDraft } from "@/lib/data/drafts";
import { loadEditionInForce } from "@/lib/data/editions";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import { observerOf } from "@/lib/domain/intake/answers";
import { DONT_KNOW } from "@/lib/domain/intake/screens";
import { withCheck } from "@/lib/domain/intake/told-checks";
import { editionFor } from "./edition-for-reader";
import { mayTell } from "./may-tell";
import { readCheckAnswer } from "./read-check-answer";

export type TellDraftCheckResult =
  | { ok: true }
  | { ok: false; reason: "refused"; messages: Record<string, string> }
  | { ok: false; reason: "unknown-check" | "changed-meanwhile" | "already-filed" };

/** What a free check has found before anything is filed: straight into the answers of the customer's own draft. */
export async function tellDraftCheck(actor: CustomerActor, code: FindingCode, form: FormData): Promise<TellDraftCheckResult> {
  const [draft, edition] = await Promise.all([findDraft(actor.claimId), loadEditionInForce()]);
  if (!draft) return { ok: false, reason: "already-filed" };
  const definition = editionFor(edition, actor).findings.find((finding) => finding.code === code);
  if (!definition || !mayTell(definition, observerOf(draft.answers) ?? "customer")) return { ok: false, reason: "unknown-check" };
  const read = readCheckAnswer(definition, form, actor);
  if (!read.ok) return read;
  const answers = withCheck(code, read.found ? read.values : { [code]: DONT_KNOW }, draft.answers);
  return (await updateDraft(database(), draft, { answers })) ? { ok: true } : { ok: false, reason: "changed-meanwhile" };
}
