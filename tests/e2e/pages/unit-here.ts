import { randomBytes, randomUUID } from "node:crypto";
import pg from "pg";
import { makeReference } from "../../../lib/domain/claims/reference";
import { reviewedClaim } from "./reviewed-claim";

/** A unit with this serial that waits for the bench, of a claim that was filed by this address, and its number. */
export async function unitHere(email: string, serial: string): Promise<{ claimId: string; number: string }> {
  const { id: claimId } = await reviewedClaim(email, serial);
  const client = new pg.Client({ connectionString: process.env.E2E_DATABASE_URL });
  await client.connect();
  try {
    const number = `R-${makeReference(randomBytes(64))}`;
    await client.query("update claim set stage = 'awaiting_the_unit' where id = $1", [claimId]);
    await client.query(
      `insert into return (id, claim_id, number, state, authorised_by_id, authorised_at, expires_at, received_at, serial_seen)
       select $1, $2, $3, 'received', id, now() - interval '1 day', now() + interval '20 days', now(), $4
         from person where role = 'support' order by email limit 1`,
      [randomUUID(), claimId, number, serial],
    );
    return { claimId, number };
  } finally {
    await client.end();
  }
}
