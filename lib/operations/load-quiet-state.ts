import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findQuietState } from "@/lib/data/quiet-claims";
import { loadSettings } from "@/lib/data/settings";
import { type Refusal, refuse } from "./refusal";

export interface QuietState {
  /** Reminders sent since the customer was last heard; with the notice there are three. */
  steps: number;
  lapsesAt: Date | null;
  isHeld: boolean;
  hasMail: boolean;
}

/** How far a claim that waits for answers is from lapsing; null while it waits for none. */
export async function loadQuietState(actor: StaffActor, claimId: string): Promise<{ ok: true; quiet: QuietState | null; timeZone: string } | Refusal> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const [state, { timeZone }] = await Promise.all([findQuietState(claimId), loadSettings()]);
  return { ok: true, timeZone, quiet: state && { steps: state.quietSteps, lapsesAt: state.lapsesAt, isHeld: state.lapseHeldAt !== null, hasMail: state.contactEmail !== null } };
}
