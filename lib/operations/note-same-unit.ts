import "server-only";
import { appendAudit } from "@/lib/data/audit";
import type { Db } from "@/lib/data/client";
import { findSameUnit } from "@/lib/data/same-unit";
import { noticesOf } from "@/lib/domain/claims/same-unit";

/** Writes into the story of a claim that its unit is known elsewhere, in the transaction that files it. Part of filing. */
export async function noteSameUnit(db: Db, claimId: string): Promise<void> {
  const { claims, shipment } = await findSameUnit(claimId, db);
  const kinds = [...new Set(noticesOf(claims, shipment).map(({ kind }) => kind))];
  if (kinds.length > 0) await appendAudit(db, { actor: { kind: "system" }, action: "notice_unit", claimId, detail: { kinds, others: claims.map(({ reference }) => reference) } });
}
