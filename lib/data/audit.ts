import "server-only";
import { log } from "@/lib/log";
import { type Db, whenKept } from "./client";
import type { Prisma } from "./generated/client";

export interface AuditLine {
  actor: { kind: "customer" } | { kind: "staff"; personId: string } | { kind: "system" };
  /** What was done: a claim event, or `refused`, `sign_in`, `disable_person`... */
  action: string;
  claimId?: string;
  /** Codes and figures; free text of staff only as `reason`, of a customer never. */
  detail?: Prisma.InputJsonObject;
}

/**
 * Adds one line to the audit trail, in the transaction of the change it tells of, and one to the log once that is kept.
 */
export async function appendAudit(db: Db, line: AuditLine): Promise<void> {
  await db.auditEntry.create({
    data: {
      actorKind: line.actor.kind,
      personId: line.actor.kind === "staff" ? line.actor.personId : null,
      claimId: line.claimId ?? null,
      action: line.action,
      detail: line.detail ?? {},
    },
  });
  const { actor, action, claimId } = line;
  // A reason is a person's own words: it stays in the trail.
  const { reason: _, ...detail } = line.detail ?? {};
  whenKept(db, () => log[action === "refused" ? "warn" : "info"]({ event: action, actor: actor.kind, ...(actor.kind === "staff" ? { personId: actor.personId } : {}), claimId, detail }));
}
