import { randomUUID } from "node:crypto";
import { describe, expect, test } from "vitest";
import { database } from "@/lib/data/client";
import { countTry, SHARED_CALLER } from "@/lib/data/rate-limit";
import { requestClaimLink } from "@/lib/operations/request-claim-link";
import { sendDraftLink } from "@/lib/operations/send-draft-link";
import { signIn } from "@/lib/operations/sign-in";
import { startDraft } from "@/lib/operations/start-draft";
import { aPerson } from "@/tests/builders/a-person";
import { aDraft, aFiledClaim, aForm } from "@/tests/builders/intake";

const PASSWORD = "oil runs downhill";
const TOO_MANY = { ok: false, reason: "too-many-tries" };

describe("wrong tries to sign in", () => {
  const tryTen = (email: string, caller: string) => Promise.all(Array.from({ length: 10 }, () => signIn({ email, password: "wrong" }, caller)));

  test("shut out their own address, and nobody elsewhere", async () => {
    const { email } = await aPerson({ password: PASSWORD });
    await tryTen(email, "192.0.2.1");
    expect(await signIn({ email, password: PASSWORD }, "192.0.2.1")).toEqual(TOO_MANY);
    expect(await signIn({ email, password: PASSWORD }, "192.0.2.2")).toMatchObject({ ok: true });
  });

  test("where addresses are not told apart, shut a person out after many more", async () => {
    const { email } = await aPerson({ password: PASSWORD });
    await tryTen(email, SHARED_CALLER);
    expect(await signIn({ email, password: PASSWORD }, SHARED_CALLER)).toMatchObject({ ok: true });
    while (await countTry("sign-in-shared", email));
    expect(await signIn({ email, password: PASSWORD }, SHARED_CALLER)).toEqual(TOO_MANY);
  });
});

describe("drafts", () => {
  test("are begun so often by one caller, and no more", async () => {
    const caller = randomUUID();
    const begin = () => startDraft(aForm({ who: "owner" }), randomUUID(), caller, "en");
    expect(await begin()).toMatchObject({ ok: true });
    while (await countTry("draft", caller));
    const before = await database().claim.count();
    expect(await begin()).toEqual(TOO_MANY);
    expect(await database().claim.count()).toBe(before);
  });
});

describe("one inbox", () => {
  const mailsTo = (toAddress: string) => database().outgoingMail.count({ where: { toAddress: { equals: toAddress, mode: "insensitive" } } });

  test("gets five links to drafts, from however many drafts and callers", async () => {
    const drafts = await Promise.all(Array.from({ length: 6 }, () => aDraft()));
    const sent = [];
    for (const [index, draft] of drafts.entries()) sent.push(await sendDraftLink(draft, aForm({ email: index % 2 ? "eve@example.com" : "Eve@Example.com" }), randomUUID()));
    expect(sent.filter(({ ok }) => ok)).toHaveLength(5);
    expect(sent.at(-1)).toEqual(TOO_MANY);
    expect(await mailsTo("eve@example.com")).toBe(5);
  });

  test("gets five links to claims, and whoever asks for more is told nothing", async () => {
    const claims = [await aFiledClaim(), await aFiledClaim()];
    const receipts = await mailsTo("ada@example.com");
    for (const { reference } of [...claims, ...claims, ...claims]) expect(await requestClaimLink(aForm({ reference, email: "ada@example.com" }), randomUUID(), "en")).toEqual({ ok: true });
    expect((await mailsTo("ada@example.com")) - receipts).toBe(5);
  });
});
