import "server-only";
import { database } from "./client";
import { Prisma } from "./generated/client";

/** The word that went along when a claim changed hands. */
export interface HandOverNote {
  from: string;
  /** Whose it became. */
  to: string;
  words: string;
}

/** The word along with the newest handing over of each of these claims; those that changed hands without one are left out. */
export async function listHandOverNotes(claimIds: readonly string[]): Promise<Map<string, HandOverNote>> {
  if (claimIds.length === 0) return new Map();
  const rows = await database().$queryRaw<{ claimId: string; from: string; to: string | null; words: string | null }[]>`
    SELECT newest.claim_id AS "claimId", p.name AS "from", newest.detail->>'to' AS "to", newest.detail->>'reason' AS "words"
    FROM unnest(ARRAY[${Prisma.join([...claimIds])}]::uuid[]) AS wanted (id)
    CROSS JOIN LATERAL (SELECT a.claim_id, a.person_id, a.detail FROM audit_entry AS a WHERE a.claim_id = wanted.id AND a.action = 'hand_over' ORDER BY a.at DESC, a.id DESC LIMIT 1) AS newest
    JOIN person AS p ON p.id = newest.person_id`;
  return new Map(rows.flatMap(({ claimId, from, to, words }) => (to !== null && words !== null ? [[claimId, { from, to, words }] as const] : [])));
}
