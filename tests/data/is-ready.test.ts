import { expect, test } from "vitest";
import { connectionPool, database } from "@/lib/data/client";
import { isReady } from "@/lib/operations/is-ready";

test("traffic may come once there is an edition in force and every migration is in", async () => {
  expect(await isReady()).toBe(true);
  await connectionPool().query("update _prisma_migrations set rolled_back_at = now() where migration_name = (select max(migration_name) from _prisma_migrations)");
  expect(await isReady()).toBe(false);
  await connectionPool().query("update _prisma_migrations set rolled_back_at = null");
  expect(await isReady()).toBe(true);
  await database().knowledgeEdition.updateMany({ data: { promotedAt: null } });
  expect(await isReady()).toBe(false);
});
