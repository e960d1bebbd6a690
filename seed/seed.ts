import { hash } from "@node-rs/argon2";
import { disconnect } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { env } from "@/lib/env";
import { putObject } from "@/lib/files/store";
import { buildDemo, STORY_ENDS_AT } from "./build-demo";
import { DAY, type Day, dayOf, HOUR } from "./calendar";
import { DEMO_PEOPLE } from "./demo-people";
import { renderScenes } from "./photos/render";
import { isThereAlready, writeTables } from "./write-tables";

const SEED = 20_231;

/**
 * Fills an empty, migrated database with the demo: `tsx --conditions=react-server seed/seed.ts [2026-11-25]`. The day
 * is the last of the story, by default today.
 */
async function seed(today: Day): Promise<void> {
  if (!env.DEMO) throw new Error("The demo is only loaded where DEMO is true: it brings people whose passwords everybody knows.");
  if (await isThereAlready()) return console.log("  the demo is there already");
  const [edition, pictures, staff] = await Promise.all([loadEditionInForce(), renderScenes(), hashPasswords()]);
  const demo = buildDemo({ seed: SEED, today, scale: env.SEED_SCALE, edition, staff, pictures, origin: env.APP_ORIGIN });
  for (const { storageKey, scene } of demo.pictures) {
    const picture = pictures.get(scene);
    if (!picture) throw new Error(`no picture was drawn of ${scene}`);
    await putObject(storageKey, picture.full, "image/jpeg");
    await putObject(`${storageKey}-small`, picture.thumbnail, "image/jpeg");
  }
  await writeTables(demo.tables);
  console.log(`  ${demo.tables.rows("shipment").length} shipments, ${demo.tables.rows("claim").length} claims`);
}

function hashPasswords() {
  return Promise.all(
    DEMO_PEOPLE.map(async ({ password, ...person }) => ({ ...person, passwordHash: await hash(password, { memoryCost: 19_456, timeCost: 2, parallelism: 1 }) })),
  );
}

const [day] = process.argv.slice(2);
try {
  await seed(day ? dayOf(day) : Math.floor((Date.now() - STORY_ENDS_AT * HOUR) / DAY));
} finally {
  await disconnect();
}
