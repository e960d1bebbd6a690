import "server-only";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { database } from "./client";

/** What the other claims about the same kit on the same vehicle were laid to, from the cells of the reports. */
export interface Elsewhere {
  /** The kit's code and the vehicle's id, as the reports are addressed. */
  kit: string;
  vehicle: string;
  /** First and last month of shipping that anything is known of, `2025-01`. */
  from: string;
  to: string;
  shipped: number;
  /** Decided claims by their primary cause, the most frequent first; the claim itself left out. */
  causes: readonly { cause: CauseCode; claims: number }[];
}

/** Null where the claim's kit or vehicle is not known, or nothing of it was ever shipped. */
export async function countElsewhere(claimId: string): Promise<Elsewhere | null> {
  const [place] = await database().$queryRaw<Omit<Elsewhere, "causes">[]>`
    SELECT k.code AS kit, c.vehicle_id AS vehicle, to_char(min(s.month), 'YYYY-MM') AS "from", to_char(max(s.month), 'YYYY-MM') AS "to", sum(s.units)::int AS shipped
    FROM claim AS c JOIN kit_revision AS mine ON mine.id = c.kit_revision_id JOIN kit AS k ON k.id = mine.kit_id
      JOIN kit_revision AS r ON r.kit_id = k.id JOIN shipped_cell AS s ON s.kit_revision_id = r.id AND s.vehicle_id = c.vehicle_id
    WHERE c.id = ${claimId}::uuid GROUP BY 1, 2`;
  if (!place) return null;
  const causes = await database().$queryRaw<{ cause: CauseCode; claims: number }[]>`
    SELECT cell.cause, (sum(cell.millionths) / 1000000)::int - (cell.cause = coalesce(own.cause, ''))::int AS claims
    FROM claim AS c JOIN kit_revision AS mine ON mine.id = c.kit_revision_id JOIN kit_revision AS r ON r.kit_id = mine.kit_id
      JOIN cause_cell AS cell ON cell.kit_revision_id = r.id AND cell.vehicle_id = c.vehicle_id AND cell.role = 'primary'
      LEFT JOIN report_claim AS own ON own.claim_id = c.id
    WHERE c.id = ${claimId}::uuid GROUP BY cell.cause, own.cause HAVING sum(cell.millionths) > 0 ORDER BY 2 DESC, 1`;
  return { ...place, causes: causes.filter(({ claims }) => claims > 0) };
}
