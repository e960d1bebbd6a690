import { randomBytes, randomUUID } from "node:crypto";
import pg from "pg";
import { makeReference } from "../../../lib/domain/claims/reference";

/** A claim that somebody looks at, filed by this address about a unit with this serial, and of no kit, so that no figure of the demo moves. */
export async function reviewedClaim(email: string, serial: string): Promise<{ id: string; reference: string }> {
  const client = new pg.Client({ connectionString: process.env.E2E_DATABASE_URL });
  await client.connect();
  try {
    const [id, reference] = [randomUUID(), makeReference(randomBytes(64))];
    await client.query(
      `insert into claim (id, reference, filing_key, stage, filed_by, contact_name, contact_email, serial, filed_at, promised_at, updated_at)
       values ($1, $2, $3, 'in_review', 'customer', 'Ada Brink', $4, $5, now() - interval '2 days', now() + interval '1 day', now())`,
      [id, reference, randomUUID(), email, serial],
    );
    return { id, reference };
  } finally {
    await client.end();
  }
}
