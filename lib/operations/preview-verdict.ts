import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import type { SecondPersonGround } from "@/lib/domain/claims/second-person";
import type { VerdictInput } from "@/lib/inputs/verdict";
import { type NotPrepared, prepareVerdict } from "./prepare-verdict";
import { type Refusal, refuse } from "./refusal";

export type PreviewVerdictResult = { ok: true; letter: string; inEnglish: string | null; fingerprint: string; grounds: readonly SecondPersonGround[] } | Refusal | NotPrepared;

/** The letter a verdict would send, what it says in English where it is in another language, and whether a second person looks at it first. Writes nothing. */
export async function previewVerdict(actor: StaffActor, claimId: string, input: VerdictInput): Promise<PreviewVerdictResult> {
  const refused = await refuse(actor, "confirm a verdict", claimId);
  if (refused) return refused;
  const prepared = await prepareVerdict(claimId, input, actor);
  return prepared.ok ? { ok: true, letter: prepared.letter, inEnglish: prepared.inEnglish, fingerprint: prepared.fingerprint, grounds: prepared.grounds } : prepared;
}
