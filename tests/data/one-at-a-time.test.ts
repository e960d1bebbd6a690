import { expect, it } from "vitest";
import { inTransaction } from "@/lib/data/client";
import { aStaffActor } from "@/tests/builders/a-person";

it("a transaction asks one query after another, also for several relations of one row", async () => {
  const { personId } = await aStaffActor("support");
  const warnings: string[] = [];
  const note = (warning: Error) => warnings.push(warning.message);
  process.on("warning", note);
  await inTransaction(async (db) => {
    const person = await db.person.findUniqueOrThrow({ where: { id: personId }, include: { sessions: true, keys: true, verdicts: true } });
    expect(person.verdicts).toEqual([]);
    expect(await Promise.all([db.person.count({ where: { id: personId } }), db.kit.count({ where: { code: "none" } })])).toEqual([1, 0]);
  });
  await new Promise(setImmediate);
  process.off("warning", note);
  expect(warnings).toEqual([]);
});
