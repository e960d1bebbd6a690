import { randomUUID } from "node:crypto";
import { beforeAll, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { fileClaim } from "@/lib/operations/file-claim";
import { invitePerson } from "@/lib/operations/invite-person";
import { recordFinding } from "@/lib/operations/record-finding";
import { aStaffActor } from "@/tests/builders/a-person";
import { aClaim } from "@/tests/builders/a-claim";
import { aDraft, aForm, answerAll } from "@/tests/builders/intake";

/** More than the connection pool holds: whatever asks the pool from within a transaction waits for itself. */
const MANY = Array.from({ length: 12 }, (_, index) => index);

let admin: StaffActor;
beforeAll(async () => {
  admin = await aStaffActor("admin");
});

test("twelve claims are filed at once", async () => {
  const drafts = await Promise.all(MANY.map(() => aDraft()));
  for (const draft of drafts) await answerAll(draft);
  const filed = await Promise.all(drafts.map((draft) => fileClaim(draft, randomUUID())));
  expect(filed.filter((one) => one.ok && one.filedNow)).toHaveLength(MANY.length);
});

test("twelve findings are recorded at once, each on its own claim", async () => {
  const claims = await Promise.all(MANY.map(() => aClaim()));
  const recorded = await Promise.all(claims.map(({ id }) => recordFinding(admin, id, "F12", aForm({ F12: "present", source: "technician" }))));
  expect(recorded).toEqual(MANY.map(() => ({ ok: true })));
});

test("twelve people are invited at once", async () => {
  const invited = await Promise.all(MANY.map((index) => invitePerson(admin, { name: "Bo Lund", email: `bo-${index}@shop.example`, role: "bench" })));
  expect(invited.every(({ ok }) => ok)).toBe(true);
  expect(await database().outgoingMail.count({ where: { onceKey: { startsWith: "password-link:" } } })).toBe(MANY.length);
});
