import "server-only";
import type { Db } from "./client";

/** Lets what follows in this transaction happen to the claim one at a time. */
export async function lockClaim(db: Db, claimId: string): Promise<void> {
  await db.$queryRaw`SELECT 1 FROM "claim" WHERE "id" = ${claimId}::uuid FOR UPDATE`;
}
