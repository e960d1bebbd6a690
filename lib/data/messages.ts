import "server-only";
import type { Db } from "./client";

/** The same words within this time are a form that was posted again; later they are meant (judgement). */
const POSTED_AGAIN_WITHIN_MINUTES = 10;

/** Whether this side of the claim has written just these words a moment ago. Ask with the claim locked. */
export async function isPostedAgain(db: Db, message: { claimId: string; from: "customer" | "staff"; body: string }, now: Date): Promise<boolean> {
  return (await db.message.count({ where: { ...message, createdAt: { gt: new Date(now.getTime() - POSTED_AGAIN_WITHIN_MINUTES * 60_000) } } })) > 0;
}

export function insertStaffMessage(db: Db, message: { claimId: string; personId: string; body: string }): Promise<{ id: string }> {
  return db.message.create({ data: { ...message, from: "staff" }, select: { id: true } });
}
