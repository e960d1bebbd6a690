import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";
import { ACT_WORDS } from "@/app/knowledge/words";
import { EDITION_ACTS } from "@/lib/domain/diagnosis/editions";

const operations = path.resolve(import.meta.dirname, "../../../lib/operations");
/** What operations write into the trail about an edition, and about no claim. */
const written = readdirSync(operations).flatMap((file) =>
  [...readFileSync(path.join(operations, file), "utf8").matchAll(/appendAudit\(.*?\);/gs)].flatMap(([call]) => (/detail: \{ edition\b/.test(call) && !call.includes("claimId") ? [/action: "(\w+)"/.exec(call)?.[1] ?? call] : [])),
);

test("the story of an edition has words for every act that operations write about one", () => {
  expect(written).toEqual(expect.arrayContaining(["propose_edition", "promote_edition", "discard_edition", "ask_for_dry_run"]));
  for (const act of written) expect(EDITION_ACTS).toContain(act);
  expect(Object.keys(ACT_WORDS).sort()).toEqual([...EDITION_ACTS].sort());
});
