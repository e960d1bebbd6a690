import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findReturn, updateSerialsSeen } from "@/lib/data/returns";
import { matchSerials } from "@/lib/domain/claims/serials";
import type { receiptSchema } from "@/lib/inputs/custody";
import type { ReceiveReturnResult } from "./receive-return";
import { auditActor, refuse } from "./refusal";

/** The serial was read or typed wrong when the unit came in, or the other unit of its pair has come too. It can be put right until the unit has been inspected. */
export async function correctSerialSeen(actor: StaffActor, { returnId, serialSeen, otherSerialSeen }: z.output<typeof receiptSchema>): Promise<ReceiveReturnResult> {
  const refused = await refuse(actor, "inspect a unit");
  if (refused) return refused;
  return inTransaction(async (db) => {
    const expected = await findReturn(db, { id: returnId });
    if (!expected) return { ok: false, reason: "not-found" };
    const seen = { serialSeen: serialSeen || null, ...(otherSerialSeen === undefined ? {} : { otherSerialSeen: otherSerialSeen || null }) };
    if (!(await updateSerialsSeen(db, returnId, seen))) return { ok: false, reason: "not-expected" };
    const serial = matchSerials({ ...expected, ...seen });
    await appendAudit(db, { actor: auditActor(actor), action: "correct_serial", claimId: expected.claimId, detail: { serial } });
    return { ok: true, serial };
  });
}
