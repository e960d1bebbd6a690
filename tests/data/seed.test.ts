import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import { hashSecret } from "@/lib/access/secrets";
import { connectionPool } from "@/lib/data/client";
import { spendLinkKey } from "@/lib/data/claim-keys";
import { loadEditionInForce } from "@/lib/data/editions";
import { inTransaction } from "@/lib/data/client";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";
import { smallDemo } from "@/tests/builders/a-small-demo";
import { DEMO_LINK_SECRETS } from "../../seed/hand-written-claims";
import { Tables } from "../../seed/tables";
import { isThereAlready, writeTables } from "../../seed/write-tables";

const rows = async (sql: string) => (await connectionPool().query<Record<string, unknown>>(sql)).rows;

describe("the demo in a real database", () => {
  let inMemory: Tables;

  beforeAll(async () => {
    inMemory = (await smallDemo()).tables;
  });

  it("leaves nothing behind when it breaks half-way, and can then be loaded", async () => {
    const broken = new Tables();
    for (const row of inMemory.rows("person")) broken.add("person", row);
    broken.add("order", { id: randomUUID(), number: "BT-1", customer_email: "a@example.com", customer_name: "A", country: "not a country", placed_on: "2026-01-01" });
    await expect(writeTables(broken)).rejects.toThrow();
    expect(await rows("SELECT id FROM person")).toEqual([]);
    expect(await isThereAlready()).toBe(false);

    await writeTables(inMemory);
    expect(await isThereAlready()).toBe(true);
  });

  it("keeps with a claim the unit and the kit that were shipped", async () => {
    expect(
      await rows("SELECT c.reference FROM claim c JOIN shipment s ON s.id = c.shipment_id WHERE c.unit_id IS DISTINCT FROM s.unit_id OR c.kit_revision_id <> s.kit_revision_id"),
    ).toEqual([]);
  });

  it("gives every filed claim a ranking and every decided one a standing verdict", async () => {
    expect(await rows("SELECT reference FROM claim c WHERE stage <> 'draft' AND NOT EXISTS (SELECT FROM ranking r WHERE r.claim_id = c.id)")).toEqual([]);
    expect(
      await rows("SELECT reference FROM claim c WHERE stage IN ('decided', 'settled') AND NOT EXISTS (SELECT FROM verdict v WHERE v.claim_id = c.id AND v.superseded_at IS NULL)"),
    ).toEqual([]);
  });

  it("has among its returns one under another serial, and parcels that nobody can place", async () => {
    expect(await rows(`SELECT r.id FROM "return" r JOIN claim c ON c.id = r.claim_id LEFT JOIN unit u ON u.id = c.unit_id WHERE r.state = 'received' AND r.serial_seen <> coalesce(c.serial, u.serial)`)).toHaveLength(1);
    expect(await rows("SELECT p.id FROM parcel p JOIN handover h ON h.parcel_id = p.id JOIN place l ON l.code = h.to_code WHERE p.return_id IS NULL AND p.closed_at IS NULL AND l.kind = 'quarantine' AND p.reason = 'no_number'")).toHaveLength(2);
  });

  it("stores rankings that the edition gives again", async () => {
    const edition = await loadEditionInForce();
    const kept = await connectionPool().query<{ observations: Observation[]; result: Ranking; fuel: string | null }>(
      "SELECT observations, result, fuel FROM ranking r JOIN claim c ON c.id = r.claim_id LEFT JOIN vehicle v ON v.id = c.vehicle_id ORDER BY r.id LIMIT 20",
    );
    expect(kept.rows.length).toBeGreaterThan(5);
    for (const { observations, result, fuel } of kept.rows) expect(JSON.parse(JSON.stringify(rankCauses(observations, editionForFuel(edition, fuel), result.context)))).toEqual(result);
  });

  it("opens two claims by the links in its mail", async () => {
    const mails = (await rows("SELECT text FROM outgoing_mail")).map(({ text }) => String(text));
    for (const secret of Object.values(DEMO_LINK_SECRETS)) {
      const claim = await inTransaction((db) => spendLinkKey(db, hashSecret(secret), new Date("2026-11-25T12:00:00Z")));
      expect(mails.some((text) => text.includes(`http://127.0.0.1:3000/claim/${claim?.reference}/open?key=${secret}`))).toBe(true);
    }
  });
});
