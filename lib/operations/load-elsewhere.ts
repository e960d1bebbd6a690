import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { countElsewhere, type Elsewhere } from "@/lib/data/elsewhere";
import { may } from "@/lib/domain/claims/permissions";
import { type Refusal, refuse } from "./refusal";

export interface LoadedElsewhere {
  ok: true;
  elsewhere: Elsewhere | null;
  /** Whether this person may follow it into the reports. */
  seesReports: boolean;
}

/** How the same kit on the same vehicle has fared in other complaints. */
export async function loadElsewhere(actor: StaffActor, claimId: string): Promise<LoadedElsewhere | Refusal> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  return { ok: true, elsewhere: await countElsewhere(claimId), seesReports: may(actor.role, "see reports") };
}
