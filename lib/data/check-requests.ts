import "server-only";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import type { Db } from "./client";

/**
 * @throws a uniqueness error when the same check of the claim is open already
 */
export function insertCheckRequest(db: Db, request: { claimId: string; findingCode: FindingCode; note: string; askedById: string }): Promise<{ id: string }> {
  return db.checkRequest.create({ data: request, select: { id: true } });
}

/** Takes back an open request of this claim; null when there is none. */
export async function withdrawCheckRequest(db: Db, claimId: string, requestId: string, now: Date): Promise<{ findingCode: FindingCode } | null> {
  const [withdrawn] = await db.checkRequest.updateManyAndReturn({
    where: { id: requestId, claimId, state: "open" },
    data: { state: "withdrawn", closedAt: now },
    select: { findingCode: true },
  });
  return withdrawn ?? null;
}
