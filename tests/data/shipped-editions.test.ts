import { beforeAll, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findPromotedLast, loadEdition } from "@/lib/data/editions";
import { loadReferenceData } from "@/lib/data/reference-data";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { promoteEdition } from "@/lib/operations/decide-edition";
import { aStaffActor } from "@/tests/builders/a-person";
import { aProposedEdition, withBase } from "@/tests/builders/an-edition";

let admin: StaffActor;
const later = { ...withBase(edition1, "C02", 2), number: 2, name: "Second edition" };
const shipped = () => database().knowledgeEdition.findMany({ where: { origin: "shipped" }, orderBy: { number: "asc" }, select: { number: true, name: true, promotedAt: true } });

beforeAll(async () => {
  admin = await aStaffActor("admin");
});

test("the first shipped edition is in force, and is loaded once however often the program starts", async () => {
  await Promise.all([1, 2, 3].map(() => loadReferenceData(edition1)));
  expect(await shipped()).toEqual([{ number: 1, name: "First edition", promotedAt: expect.any(Date) }]);
});

test("a later shipped edition, whose number one of the shop's own has taken, gets the next and waits for a person", async () => {
  const own = await aProposedEdition(admin);
  expect(own).toBe(later.number);
  expect(await promoteEdition(admin, own, { reason: "Ours" })).toEqual({ ok: true });
  await Promise.all([1, 2, 3].map(() => loadReferenceData(later)));
  expect((await shipped())[1]).toEqual({ number: 3, name: "Second edition", promotedAt: null });
  expect(await loadEdition(3)).toEqual({ ...later, number: 3 });
  expect((await findPromotedLast()).number).toBe(own);
  expect(await promoteEdition(admin, 3, { reason: "Theirs", inSpiteOf: own })).toEqual({ ok: true });
});
