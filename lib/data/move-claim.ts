import "server-only";
import { type ClaimEvent, stagesBefore, transition } from "@/lib/domain/claims/lifecycle";
import { comesToDesk } from "@/lib/domain/claims/queue-order";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { appendAudit, type AuditLine } from "./audit";
import type { Db } from "./client";
import type { Prisma } from "./generated/client";

export type MoveResult =
  | { ok: true; stage: ClaimStage; version: number }
  /** Somebody else changed the claim since it was read. */
  | { ok: false; reason: "changed-meanwhile"; stage: ClaimStage }
  | { ok: false; reason: "not-legal-here"; stage: ClaimStage };

/**
 * Moves a claim by a named event and adds the audit line, in the caller's transaction. The stage and, where given, the
 * version the caller read are guarded in the update itself, so that of two people deciding at once the second is told
 * and nothing is overwritten.
 *
 * @param expectedVersion the version the person saw; leave out for events that may follow any change
 * @param changes columns that change with the stage
 */
export async function moveClaim(
  db: Db,
  claimId: string,
  event: ClaimEvent,
  by: Pick<AuditLine, "actor" | "detail">,
  { expectedVersion, changes = {} }: { expectedVersion?: number; changes?: Prisma.ClaimUncheckedUpdateManyInput } = {},
): Promise<MoveResult> {
  const before = await db.claim.findUniqueOrThrow({ where: { id: claimId }, select: { stage: true, version: true } });
  const next = transition(before.stage, event);
  if (expectedVersion !== undefined && before.version !== expectedVersion) return { ok: false, reason: "changed-meanwhile", stage: before.stage };
  if (!next.ok) return { ok: false, reason: "not-legal-here", stage: before.stage };
  const moved = await db.claim.updateMany({
    where: { id: claimId, version: before.version, stage: { in: [...stagesBefore(event)] } },
    data: { ...(comesToDesk(before.stage, next.stage) ? { deskSince: new Date() } : {}), ...changes, stage: next.stage, version: { increment: 1 } },
  });
  if (moved.count === 0) return { ok: false, reason: "changed-meanwhile", stage: before.stage };
  await appendAudit(db, { ...by, claimId, action: event, detail: { ...by.detail, from: before.stage, to: next.stage } });
  return { ok: true, stage: next.stage, version: before.version + 1 };
}
