import "server-only";
import type { Db } from "./client";

export function insertStaffMessage(db: Db, message: { claimId: string; personId: string; body: string }): Promise<{ id: string }> {
  return db.message.create({ data: { ...message, from: "staff" }, select: { id: true } });
}
