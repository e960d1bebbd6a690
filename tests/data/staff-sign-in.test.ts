import { describe, expect, test } from "vitest";
import { hashSecret } from "@/lib/access/secrets";
import { staffByToken } from "@/lib/access/staff";
import { database } from "@/lib/data/client";
import { ownPath, signInSchema } from "@/lib/inputs/sign-in";
import { signIn } from "@/lib/operations/sign-in";
import { signOut } from "@/lib/operations/sign-out";
import { aPerson } from "@/tests/builders/a-person";

const PASSWORD = "oil runs downhill";

describe("signing in", () => {
  test("with the right password makes a session of twelve hours, kept by its hash", async () => {
    const person = await aPerson({ role: "bench", password: PASSWORD });
    const signedIn = await signIn({ email: person.email, password: PASSWORD }, "direct");
    expect(signedIn).toMatchObject({ ok: true, role: "bench" });
    if (!signedIn.ok) return;
    const session = await database().staffSession.findFirstOrThrow({ where: { personId: person.id } });
    expect(session.tokenHash).toBe(hashSecret(signedIn.token));
    expect((session.expiresAt.getTime() - Date.now()) / 3_600_000).toBeCloseTo(12, 1);
    expect(await staffByToken(signedIn.token)).toMatchObject({ personId: person.id, role: "bench" });
    expect(await database().auditEntry.count({ where: { personId: person.id, action: "sign_in" } })).toBe(1);
  });

  test("answers the same to a wrong password, somebody unknown, disabled, or without a password yet", async () => {
    const known = await aPerson({ password: PASSWORD });
    const disabled = await aPerson({ password: PASSWORD, disabledAt: new Date() });
    const invited = await aPerson();
    await database().person.update({ where: { id: invited.id }, data: { passwordHash: null } });
    const refused = { ok: false, reason: "wrong" };
    const lines = () => database().auditEntry.count({ where: { action: "sign_in_refused" } });
    const before = await lines();
    expect(await signIn({ email: known.email, password: "something else" }, "direct")).toEqual(refused);
    expect(await signIn({ email: "nobody@shop.example", password: PASSWORD }, "direct")).toEqual(refused);
    expect(await signIn({ email: disabled.email, password: PASSWORD }, "direct")).toEqual(refused);
    expect(await signIn({ email: invited.email, password: "" }, "direct")).toEqual(refused);
    // So does what is written of it: a line more would be told by the time it takes.
    expect((await lines()) - before).toBe(4);
    expect(await database().staffSession.count({ where: { personId: { in: [known.id, disabled.id, invited.id] } } })).toBe(0);
  });

  test("does not count against somebody who signs in rightly again and again", async () => {
    const person = await aPerson({ password: PASSWORD });
    for (let tries = 0; tries < 12; tries += 1) expect((await signIn({ email: person.email, password: PASSWORD }, "direct")).ok).toBe(true);
  });

  test("is limited by address too, whoever is tried", async () => {
    const tries = await Promise.all(Array.from({ length: 61 }, (_, index) => signIn({ email: `guess-${index}@shop.example`, password: "x" }, "192.0.2.7")));
    expect(tries.filter((tried) => !tried.ok && tried.reason === "too-many-tries")).toHaveLength(1);
  });

  test("ends at once by signing out or being disabled", async () => {
    const person = await aPerson({ password: PASSWORD });
    const [first, second] = [await signIn({ email: person.email, password: PASSWORD }, "direct"), await signIn({ email: person.email, password: PASSWORD }, "direct")];
    if (!first.ok || !second.ok) throw new Error("should be signed in");
    await signOut(first.token);
    expect(await staffByToken(first.token)).toBeNull();
    expect(await staffByToken(second.token)).not.toBeNull();
    await database().person.update({ where: { id: person.id }, data: { disabledAt: new Date() } });
    expect(await staffByToken(second.token)).toBeNull();
  });
});

test("the address is read as it was meant", () => {
  expect(signInSchema.parse({ email: "  Wren@Shop.Example ", password: "x" }).email).toBe("wren@shop.example");
});

test.each(["//evil.example", "/\\evil.example", "https://evil.example", "evil", "/queue\n", "/\t/evil.example", "", null, ["/queue"]])("%j is no page of ours to go to", (given) => {
  expect(ownPath(given)).toBeNull();
});

test("a page of ours is", () => {
  expect(ownPath("/queue/1?tab=letter#end")).toBe("/queue/1?tab=letter#end");
});
