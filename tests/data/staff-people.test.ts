import { beforeEach, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { staffByToken } from "@/lib/access/staff";
import { database } from "@/lib/data/client";
import { ROLES } from "@/lib/domain/claims/roles";
import { changeRole } from "@/lib/operations/change-role";
import { createFirstAdministrator } from "@/lib/operations/create-first-administrator";
import { disablePerson } from "@/lib/operations/disable-person";
import { enablePerson } from "@/lib/operations/enable-person";
import { invitePerson } from "@/lib/operations/invite-person";
import { loadMail, loadMails } from "@/lib/operations/load-mail";
import { loadPeople } from "@/lib/operations/load-people";
import { sendPasswordLink } from "@/lib/operations/send-password-link";
import { mayPasswordBeSet, setPassword } from "@/lib/operations/set-password";
import { signIn } from "@/lib/operations/sign-in";
import { aClaim } from "@/tests/builders/a-claim";
import { aPerson, aSession, aStaffActor } from "@/tests/builders/a-person";

const NEW = { password: "a steep wide drain", again: "a steep wide drain" };

let admin: StaffActor;
beforeEach(async () => {
  // One administrator at a time, so that the last one is known.
  await database().person.updateMany({ where: { role: "admin" }, data: { role: "support" } });
  admin = await aStaffActor("admin");
});

async function lastKeyMailedTo(address: string): Promise<string> {
  const mail = await database().outgoingMail.findFirstOrThrow({ where: { toAddress: address }, orderBy: { createdAt: "desc" } });
  return new URL(/https?:\S+/.exec(mail.text)?.[0] ?? "").searchParams.get("key") ?? "";
}

describe("inviting", () => {
  test("mails a link that sets a password once and is not kept readable", async () => {
    expect((await invitePerson(admin, { name: "Bo Lund", email: "bo@shop.example", role: "bench" })).ok).toBe(true);
    const key = await lastKeyMailedTo("bo@shop.example");
    expect(await database().personKey.count({ where: { hash: key } })).toBe(0);
    expect(await mayPasswordBeSet(key)).toBe(true);
    expect(await setPassword(key, NEW)).toEqual({ ok: true });
    expect(await signIn({ email: "bo@shop.example", password: NEW.password }, "direct")).toMatchObject({ ok: true, role: "bench" });
    expect(await mayPasswordBeSet(key)).toBe(false);
    expect(await setPassword(key, NEW)).toEqual({ ok: false, reason: "key-does-not-open" });
  });

  test("the same address twice is refused and mails nothing", async () => {
    await invitePerson(admin, { name: "Ann", email: "ann@shop.example", role: "support" });
    expect(await invitePerson(admin, { name: "Ann", email: "ann@shop.example", role: "admin" })).toEqual({ ok: false, reason: "email-taken" });
    expect(await database().outgoingMail.count({ where: { toAddress: "ann@shop.example" } })).toBe(1);
  });

  test("a key runs out after 72 hours, and of two at once one sets the password", async () => {
    const invited = await invitePerson(admin, { name: "Cy Ode", email: "cy@shop.example", role: "bench" });
    if (!invited.ok) throw new Error("should be invited");
    const key = await lastKeyMailedTo("cy@shop.example");
    expect(await setPassword(key, NEW, new Date(Date.now() + 73 * 3_600_000))).toEqual({ ok: false, reason: "key-does-not-open" });
    const both = await Promise.all([setPassword(key, NEW), setPassword(key, NEW)]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
  });

  test("a new link replaces the one before, ends old sessions when used, and is not sent to somebody disabled", async () => {
    const person = await aPerson();
    const token = await aSession(person.id);
    await sendPasswordLink(admin, person.id);
    const first = await lastKeyMailedTo(person.email);
    await sendPasswordLink(admin, person.id);
    const second = await database().outgoingMail.findMany({ where: { toAddress: person.email } }).then((mails) => mails.map(({ text }) => /key=(\S+)/.exec(text)?.[1] ?? "").find((key) => key !== first));
    expect(await mayPasswordBeSet(first)).toBe(false);
    expect(await setPassword(second ?? "", NEW)).toEqual({ ok: true });
    expect(await staffByToken(token)).toBeNull();
    await disablePerson(admin, person.id);
    expect(await sendPasswordLink(admin, person.id)).toEqual({ ok: false, reason: "disabled" });
  });

  test.each([
    ["too short", "fourteen signs", "fourteen signs"],
    ["one character repeated", "aaaaaaaaaaaaaaaa", "aaaaaaaaaaaaaaaa"],
    ["holding the name", "my name is Calder now", "my name is Calder now"],
    ["holding the address", "wren.c@shop.example", "wren.c@shop.example"],
    ["typed differently the second time", "a steep wide drain", "a steep wide drive"],
  ])("a password %s is refused and the key is kept", async (_, password, again) => {
    const person = await aPerson({ name: "Wren Calder", email: "wren.c@shop.example" });
    await sendPasswordLink(admin, person.id);
    const key = await lastKeyMailedTo(person.email);
    expect(await setPassword(key, { password, again })).toMatchObject({ ok: false, reason: "refused" });
    expect(await mayPasswordBeSet(key)).toBe(true);
    await database().person.delete({ where: { id: person.id } });
  });
});

describe("rights", () => {
  test("end with every session at once when a role changes or a person is disabled", async () => {
    const person = await aPerson({ role: "support" });
    const [first, second] = [await aSession(person.id), await aSession(person.id)];
    expect(await changeRole(admin, person.id, "product")).toEqual({ ok: true });
    expect(await staffByToken(first)).toBeNull();
    expect(await staffByToken(second)).toBeNull();
    const third = await aSession(person.id);
    expect(await staffByToken(third)).toMatchObject({ role: "product" });
    expect(await disablePerson(admin, person.id)).toEqual({ ok: true, released: 0 });
    expect(await database().staffSession.count({ where: { personId: person.id } })).toBe(0);
    expect(await enablePerson(admin, person.id)).toEqual({ ok: true });
    expect(await staffByToken(third)).toBeNull();
  });

  test("that end leave open claims to anybody, and ended ones as they were", async () => {
    const person = await aPerson();
    const [open, decided] = [await aClaim(), await aClaim({ stage: "decided" })];
    await database().claim.updateMany({ where: { id: { in: [open.id, decided.id] } }, data: { assignedToId: person.id } });
    expect(await disablePerson(admin, person.id)).toEqual({ ok: true, released: 1 });
    expect(await database().claim.findUniqueOrThrow({ where: { id: open.id } })).toMatchObject({ assignedToId: null });
    expect(await database().claim.findUniqueOrThrow({ where: { id: decided.id } })).toMatchObject({ assignedToId: person.id });
    expect(await database().auditEntry.findFirst({ where: { claimId: open.id } })).toMatchObject({ action: "hand_over", personId: admin.personId, detail: { to: null } });
  });

  test("of oneself are changed by nobody", async () => {
    expect(await changeRole(admin, admin.personId, "support")).toEqual({ ok: false, reason: "yourself" });
    expect(await disablePerson(admin, admin.personId)).toEqual({ ok: false, reason: "yourself" });
  });

  test("stay with the last administrator, also when two take them from each other at once", async () => {
    const other = await aStaffActor("admin");
    const both = await Promise.all([disablePerson(admin, other.personId), changeRole(other, admin.personId, "bench")]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toMatchObject({ reason: "last-administrator" });
    expect(await database().person.count({ where: { role: "admin", disabledAt: null } })).toBe(1);
  });

  test("of nobody are changed", async () => {
    const nobody = "00000000-0000-7000-8000-000000000000";
    const unknown = { ok: false, reason: "unknown-person" };
    expect(await changeRole(admin, nobody, "bench")).toEqual(unknown);
    expect(await disablePerson(admin, nobody)).toEqual(unknown);
    expect(await enablePerson(admin, nobody)).toEqual(unknown);
    expect(await sendPasswordLink(admin, nobody)).toEqual(unknown);
  });
});

test("the first administrator is made once, with a password that is hard to guess", async () => {
  const first = { name: "Ada Brink", email: "ada@shop.example", password: "fourteen axles turn" };
  expect(await createFirstAdministrator(first)).toEqual({ ok: false, reason: "there-is-one-already" });
  await database().person.updateMany({ where: { role: "admin" }, data: { role: "support" } });
  expect(await createFirstAdministrator({ ...first, password: "short" })).toEqual({ ok: false, reason: "password-too-short-or-too-easy" });
  expect(await createFirstAdministrator({ ...first, email: "ada" })).toEqual({ ok: false, reason: "name-or-e-mail-address-not-right" });
  const both = await Promise.all([createFirstAdministrator(first), createFirstAdministrator({ ...first, email: "ada2@shop.example" })]);
  expect(both.filter(({ ok }) => ok)).toHaveLength(1);
});

describe.each(ROLES.filter((role) => role !== "admin"))("a %s", (role) => {
  const acts: readonly [string, (actor: StaffActor, personId: string) => Promise<{ ok: boolean }>][] = [
    ["loadPeople", loadPeople],
    ["invitePerson", (actor) => invitePerson(actor, { name: "X", email: "x@shop.example", role: "admin" })],
    ["sendPasswordLink", sendPasswordLink],
    ["changeRole", (actor, personId) => changeRole(actor, personId, "admin")],
    ["disablePerson", disablePerson],
    ["enablePerson", enablePerson],
    ["loadMails", loadMails],
    ["loadMail", loadMail],
  ];
  test.each(acts)("is refused %s, and the trail says so", async (_, act) => {
    const actor = await aStaffActor(role);
    const other = await aPerson();
    expect(await act(actor, other.id)).toEqual({ ok: false, reason: "not-allowed" });
    expect(await database().auditEntry.count({ where: { personId: actor.personId, action: "refused" } })).toBe(1);
    expect(await database().person.findUniqueOrThrow({ where: { id: other.id } })).toMatchObject({ role: "support", disabledAt: null });
  });
});
