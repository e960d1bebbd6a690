import { beforeAll, expect, it } from "vitest";
import { loadEditionInForce } from "@/lib/data/editions";
import { listSignals } from "@/lib/data/signals";
import { findReportCatalogue } from "@/lib/data/reports";
import { scopeInWords } from "@/lib/domain/reporting/signals-sentence";
import { lookForSignals } from "@/lib/operations/look-for-signals";
import { buildDemo } from "../../seed/build-demo";
import { dayOf } from "../../seed/calendar";
import { faultyBatch, HIDDEN_DRAIN_FAULT } from "../../seed/causal-model";
import { DEMO_PEOPLE } from "../../seed/demo-people";
import type { Picture } from "../../seed/photos/render";
import { SCENES, type SceneName } from "../../seed/photos/scenes";
import { writeTables } from "../../seed/write-tables";

const TODAY = dayOf("2026-11-27");

beforeAll(async () => {
  const picture = (index: number): Picture => ({ full: Buffer.from("full"), thumbnail: Buffer.from("small"), width: 4, height: 3, sha256: index.toString(16).padStart(64, "0") });
  const demo = buildDemo({
    // As the demo is seeded.
    seed: 20_231,
    today: TODAY,
    scale: 1,
    edition: await loadEditionInForce(),
    staff: DEMO_PEOPLE.map(({ password: _, ...person }) => ({ ...person, passwordHash: "$argon2id$v=19$demo" })),
    pictures: new Map((Object.keys(SCENES) as SceneName[]).map((name, index) => [name, picture(index)])),
    origin: "http://127.0.0.1:3000",
  });
  await writeTables(demo.tables);
});

it("finds the two hidden faults of the demo, and takes neither the frost nor chance for one", async () => {
  await lookForSignals({}, new Date("2026-11-27T12:00:00Z"));
  const [signals, catalogue] = await Promise.all([listSignals(), findReportCatalogue()]);
  const told = signals.map(({ cause, scope }) => `${cause} ${scopeInWords({ ...scope, shippedFrom: null }, catalogue)}`);
  const { kit, revision } = HIDDEN_DRAIN_FAULT;
  const drain = `${kit} rev ${revision} on Halvorn Drover 3.0 D HD30`;
  expect(told.toSorted()).toEqual([`C01 ${drain}`, `C15 Batch ${faultyBatch(TODAY)}`]);
});
