import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { updateUnits } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { findDraft } from "@/lib/data/drafts";
import type { UnitSystem } from "@/lib/domain/claims/unit-systems";

/** The customer reads amounts in other units from now on; what was typed stays as it was typed. */
export async function changeUnits(actor: CustomerActor, units: UnitSystem): Promise<void> {
  await inTransaction(async (db) => {
    if (!(await updateUnits(db, actor.claimId, units))) return;
    // A draft may still run out and be removed; the audit trail keeps what it names for good.
    if (await findDraft(actor.claimId, db)) return;
    await appendAudit(db, { actor: { kind: "customer" }, action: "change_units", claimId: actor.claimId, detail: { units } });
  });
}
