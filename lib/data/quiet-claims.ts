import "server-only";
import type { Language } from "@/lib/domain/claims/languages";
import { type Db, database } from "./client";

/** A claim whose customer has not answered, with what has been done about it. */
export interface QuietClaim {
  id: string;
  reference: string;
  contactName: string;
  contactEmail: string;
  language: Language;
  quietSince: Date;
  steps: number;
  countedFrom: Date | null;
  lapsesAt: Date | null;
}

/** The claims that wait for answers, are not held, and whose customer mail reaches, quiet since before a time; all of them, or one. */
export async function listQuietClaims(db: Db, { before, claimId = null }: { before: Date; claimId?: string | null }): Promise<QuietClaim[]> {
  return db.$queryRaw<QuietClaim[]>`
    SELECT c.id, c.reference, c.contact_name AS "contactName", c.contact_email AS "contactEmail", c.language::text AS "language", q.since AS "quietSince",
      c.quiet_steps AS "steps", c.quiet_from AS "countedFrom", c.lapses_at AS "lapsesAt"
    FROM claim AS c CROSS JOIN LATERAL (
      SELECT greatest(
        (SELECT max(r.asked_at) FROM check_request AS r WHERE r.claim_id = c.id AND r.state = 'open'),
        (SELECT max(a.at) FROM audit_entry AS a WHERE a.claim_id = c.id AND (a.actor_kind = 'customer' OR a.action = 'release_lapse'))) AS since
    ) AS q
    WHERE c.stage = 'awaiting_checks' AND c.lapse_held_at IS NULL AND c.contact_email IS NOT NULL AND (${claimId}::uuid IS NULL OR c.id = ${claimId}::uuid)
      AND EXISTS (SELECT FROM check_request AS r WHERE r.claim_id = c.id AND r.state = 'open')
      AND NOT EXISTS (SELECT FROM outgoing_mail AS m WHERE m.claim_id = c.id AND m.bounced_at IS NOT NULL AND m.reached_at IS NULL)
      AND q.since < ${before}
    ORDER BY q.since`;
}

export async function updateQuietSteps(db: Db, claimId: string, { steps, countedFrom, lapsesAt }: { steps: number; countedFrom: Date; lapsesAt: Date | null }): Promise<void> {
  await db.claim.update({ where: { id: claimId }, data: { quietSteps: steps, quietFrom: countedFrom, lapsesAt } });
}

/** Holds a claim back from being reminded of and from lapsing, or lets it go again with nothing counted; false when it was so already. */
export async function updateLapseHeld(db: Db, claimId: string, heldAt: Date | null): Promise<boolean> {
  const { count } = await db.claim.updateMany({
    where: { id: claimId, stage: "awaiting_checks", lapseHeldAt: heldAt ? null : { not: null } },
    data: { lapseHeldAt: heldAt, quietSteps: 0, quietFrom: null, lapsesAt: null },
  });
  return count === 1;
}

/** What the pages tell of reminders: how many there were, when it lapses, whether it is held. */
export function findQuietState(claimId: string) {
  return database().claim.findFirst({
    where: { id: claimId, stage: "awaiting_checks" },
    select: { quietSteps: true, quietFrom: true, lapsesAt: true, lapseHeldAt: true, contactEmail: true },
  });
}
