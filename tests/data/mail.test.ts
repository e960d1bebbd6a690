import { randomUUID } from "node:crypto";
import { readFile } from "node:fs/promises";
import path from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { hashSecret } from "@/lib/access/secrets";
import { connectionPool, database } from "@/lib/data/client";
import { env } from "@/lib/env";
import { sendQueuedMail } from "@/lib/jobs/send-mail";
import { invitePerson } from "@/lib/operations/invite-person";
import { loadMail, loadMails } from "@/lib/operations/load-mail";
import { purgeExpired } from "@/lib/data/purge";
import { aStaffActor } from "@/tests/builders/a-person";
import { aFiledClaim } from "@/tests/builders/intake";

const given = { SMTP_URL: undefined, ...env };
afterEach(() => Object.assign(env, given));

const DAY = 86_400_000;
const KEY = /\?key=([\w-]{43})/;

async function aReceipt() {
  const { claimId } = await aFiledClaim();
  return database().outgoingMail.findFirstOrThrow({ where: { claimId } });
}

async function anInvitation() {
  const email = `${randomUUID()}@shop.example`;
  await invitePerson(await aStaffActor("admin"), { name: "Bo Lund", email, role: "bench" });
  return database().outgoingMail.findFirstOrThrow({ where: { toAddress: email } });
}

const mailRow = (id: string) => database().outgoingMail.findUnique({ where: { id } });
const jobOf = async (mailId: string) => (await connectionPool().query<{ max_attempts: number }>("SELECT max_attempts FROM graphile_worker.jobs WHERE key = $1", [`mail:${mailId}`])).rows[0];
const spendTries = (mailId: string) => connectionPool().query("UPDATE graphile_worker._private_jobs SET attempts = max_attempts WHERE key = $1", [`mail:${mailId}`]);

describe("a mail server that does not answer", () => {
  test("is tried for days, and only then the mail is given up", async () => {
    const [admin, { id }] = [await aStaffActor("admin"), await aReceipt()];
    // graphile-worker waits e^n seconds after the n-th try, e^10 at most.
    const { max_attempts: tries = 0 } = (await jobOf(id)) ?? {};
    const seconds = Array.from({ length: tries - 1 }, (_, n) => Math.exp(Math.min(n + 1, 10))).reduce((sum, wait) => sum + wait, 0);
    expect(seconds / 86_400).toBeGreaterThan(3);

    env.SMTP_URL = "smtp://127.0.0.1:1";
    await expect(sendQueuedMail(id)).rejects.toThrow();
    expect(await loadMail(admin, id)).toMatchObject({ ok: true, mail: { state: "failed", attempts: 1, isGivenUp: false } });
    await spendTries(id);
    expect(await loadMail(admin, id)).toMatchObject({ ok: true, mail: { state: "failed", isGivenUp: true } });
    expect(await loadMails(admin)).toMatchObject({ ok: true, mails: expect.arrayContaining([expect.objectContaining({ id, isGivenUp: true })]) });
  });

  test("does not take the link out of a mail that has yet to go out", async () => {
    const { id } = await aReceipt();
    env.SMTP_URL = "smtp://127.0.0.1:1";
    await expect(sendQueuedMail(id)).rejects.toThrow();
    expect((await mailRow(id))?.text).toMatch(KEY);
  });
});

describe("a mail that was sent", () => {
  test.each([
    ["receipt", aReceipt],
    ["invitation", anInvitation],
  ])("is kept without the key of its link: %s", async (_, aMail) => {
    const { id, text } = await aMail();
    const key = KEY.exec(text)?.[1] ?? "";
    await sendQueuedMail(id);
    expect(await readFile(path.join(env.MAIL_FOLDER, `${id}.eml`), "utf8")).toContain(key.slice(0, 20));
    const kept = await mailRow(id);
    expect(kept).toMatchObject({ state: "sent", text: expect.stringMatching(/\?key=removed/), html: expect.stringMatching(/\?key=removed/) });
    expect(JSON.stringify(kept)).not.toContain(key);
  });

  test("keeps its link in the demo, where it is read on the mail page", async () => {
    env.DEMO = true;
    const { id } = await aReceipt();
    await sendQueuedMail(id);
    expect((await mailRow(id))?.text).toMatch(KEY);
  });
});

describe("in the demo", () => {
  test("everybody of staff reads mail about claims, and administrators alone the links to set a password", async () => {
    env.DEMO = true;
    const [receipt, invitation] = [await aReceipt(), await anInvitation()];
    const read = async (role: "support" | "admin") => {
      const actor = await aStaffActor(role);
      const listed = await loadMails(actor);
      const ids = listed.ok ? listed.mails.map(({ id }) => id) : [];
      return [receipt.id, invitation.id].map(async (id) => [ids.includes(id), (await loadMail(actor, id)).ok]);
    };
    expect(await Promise.all(await read("admin"))).toEqual([
      [true, true],
      [true, true],
    ]);
    expect(await Promise.all(await read("support"))).toEqual([
      [true, true],
      [false, false],
    ]);
    expect(await loadMail(await aStaffActor("support"), invitation.id)).toEqual({ ok: false, reason: "not-found" });
  });

  test("who is told of a signal reads that mail, and nobody else's", async () => {
    env.DEMO = true;
    const product = await aStaffActor("product");
    const { email } = await database().person.findUniqueOrThrow({ where: { id: product.personId } });
    const { id } = await anInvitation();
    await database().outgoingMail.update({ where: { id }, data: { toAddress: email } });
    expect(await loadMails(product)).toMatchObject({ ok: true, mails: expect.arrayContaining([expect.objectContaining({ id })]) });
    expect(await loadMail(product, id)).toMatchObject({ ok: true });
    expect(await loadMail(await aStaffActor("product"), id)).toEqual({ ok: false, reason: "not-found" });
  });
});

describe("the nightly purge", () => {
  test("removes mail of ninety days ago that was sent or given up, its job with it, and leaves the rest", async () => {
    const [old, lately, failed, waiting] = [await aReceipt(), await aReceipt(), await aReceipt(), await aReceipt()];
    const now = new Date();
    const [before, within] = [new Date(now.getTime() - 91 * DAY), new Date(now.getTime() - 89 * DAY)];
    await database().outgoingMail.update({ where: { id: old.id }, data: { state: "sent", createdAt: before, sentAt: before } });
    await database().outgoingMail.update({ where: { id: lately.id }, data: { state: "sent", createdAt: within, sentAt: within } });
    await database().outgoingMail.update({ where: { id: failed.id }, data: { state: "failed", createdAt: before } });
    await spendTries(failed.id);
    expect(await purgeExpired(now)).toMatchObject({ mails: 2 });
    expect(await Promise.all([old, lately, failed, waiting].map(async ({ id }) => (await mailRow(id)) !== null))).toEqual([false, true, false, true]);
    expect(await jobOf(failed.id)).toBeUndefined();
    expect(await jobOf(waiting.id)).toBeDefined();
  });

  test("removes links to set a password that have run out, used or not", async () => {
    const { text } = await anInvitation();
    const hash = hashSecret(KEY.exec(text)?.[1] ?? "");
    const kept = () => database().personKey.count({ where: { hash } });
    await purgeExpired(new Date(Date.now() + 71 * 3_600_000));
    expect(await kept()).toBe(1);
    await purgeExpired(new Date(Date.now() + 73 * 3_600_000));
    expect(await kept()).toBe(0);
  });
});
