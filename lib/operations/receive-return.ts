import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { findReturn, markReceived } from "@/lib/data/returns";
import { compareSerials, type SerialMatch } from "@/lib/domain/claims/serials";
import type { receiptSchema } from "@/lib/inputs/returns";
import { auditActor, refuse, type Refusal } from "./refusal";

export type ReceiveReturnResult = { ok: true; serial: SerialMatch } | Refusal | { ok: false; reason: "not-found" | "not-expected" };

/** The unit is here, with the serial that is read on it. Another serial is taken in too, and said. */
export async function receiveReturn(actor: StaffActor, { returnId, serialSeen }: z.output<typeof receiptSchema>, now: Date = new Date()): Promise<ReceiveReturnResult> {
  const refused = await refuse(actor, "inspect a unit");
  if (refused) return refused;
  return inTransaction(async (db) => {
    const expected = await findReturn(db, returnId);
    if (!expected) return { ok: false, reason: "not-found" };
    if (!(await markReceived(db, returnId, serialSeen || null, now))) return { ok: false, reason: "not-expected" };
    const serial = compareSerials(serialSeen, expected.serialExpected);
    await appendAudit(db, { actor: auditActor(actor), action: "return_received", claimId: expected.claimId, detail: { serial } });
    return { ok: true, serial };
  });
}
