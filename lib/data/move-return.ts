import "server-only";
import { type ReturnEvent, returnTransition } from "@/lib/domain/claims/return-lifecycle";
import type { ReturnState } from "@/lib/domain/claims/stages";
import type { Db } from "./client";
import type { Prisma } from "./generated/client";

export type ReturnMove = { ok: true; from: ReturnState; state: ReturnState } | { ok: false; reason: "not-legal-here"; state: ReturnState };

/**
 * Moves a return by a named event, in the caller's transaction. The state is guarded in the update itself, so that of two
 * people at once the second is refused. The caller adds the audit line.
 *
 * @param changes columns that change with the state
 */
export async function moveReturn(db: Db, returnId: string, event: ReturnEvent, changes: Prisma.ReturnUncheckedUpdateManyInput = {}): Promise<ReturnMove> {
  const { state } = await db.return.findUniqueOrThrow({ where: { id: returnId }, select: { state: true } });
  const next = returnTransition(state, event);
  if (!next.ok) return { ok: false, reason: "not-legal-here", state };
  const { count } = await db.return.updateMany({ where: { id: returnId, state }, data: { ...changes, state: next.state } });
  return count === 1 ? { ok: true, from: state, state: next.state } : { ok: false, reason: "not-legal-here", state };
}
