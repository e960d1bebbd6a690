import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { assignIfNobodys, findClaimToActOn } from "@/lib/data/claims-for-staff";
import type { Db } from "@/lib/data/client";
import { moveClaim } from "@/lib/data/move-claim";
import { auditActor } from "./refusal";

/**
 * Who acts on an open claim that is in nobody's hand has it in theirs from then on, so that the answer comes back to
 * somebody. Part of the operations that reach the customer, which have checked who asks and hold the claim.
 */
export async function takeInPassing(db: Db, actor: StaffActor, claimId: string): Promise<void> {
  if (!(await assignIfNobodys(db, claimId, actor.personId))) return;
  await appendAudit(db, { actor: auditActor(actor), action: "hand_over", claimId, detail: { to: actor.personId } });
  if ((await findClaimToActOn(claimId, db))?.stage === "filed") await moveClaim(db, claimId, "take_up", { actor: auditActor(actor) });
}
