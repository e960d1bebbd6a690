import { randomUUID } from "node:crypto";
import type { AddressInfo } from "node:net";
import { SMTPServer } from "smtp-server";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { POST } from "@/app/api/bounces/route";
import { database } from "@/lib/data/client";
import { env } from "@/lib/env";
import { sendQueuedMail } from "@/lib/jobs/send-mail";
import { readQueueFilter } from "@/lib/inputs/queue-filter";
import { loadQueue } from "@/lib/operations/load-queue";
import { loadBounce, sayReached } from "@/lib/operations/note-bounce";
import { aStaffActor } from "../builders/a-person";
import { aFiledClaim } from "../builders/intake";

const SECRET = "a secret that is long enough for this";
const given = { SMTP_URL: undefined, BOUNCE_SECRET: undefined, ...env };
afterEach(() => Object.assign(env, given));

const server = new SMTPServer({
  authOptional: true,
  disabledCommands: ["STARTTLS"],
  onRcptTo: (_address, _session, done) => done(Object.assign(new Error("5.1.1 unknown user"), { responseCode: 550 })),
});
beforeAll(() => new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening)));
afterAll(() => new Promise<void>((closed) => server.close(closed)));

async function aReceipt() {
  const { claimId } = await aFiledClaim();
  return { claimId, mail: await database().outgoingMail.findFirstOrThrow({ where: { claimId } }) };
}
const mailRow = (id: string) => database().outgoingMail.findUniqueOrThrow({ where: { id } });

const aReport = (messageId: string) => `Content-Type: multipart/report; boundary=x\n\n--x\nContent-Type: message/delivery-status\n\nReporting-MTA: dns; mx\n\nAction: failed\nStatus: 5.1.1\nDiagnostic-Code: smtp; 550 unknown user\n\n--x\nContent-Type: text/rfc822-headers\n\nMessage-ID: <${messageId}>\n\n--x--\n`;
const host = new URL(env.APP_ORIGIN).hostname;
const post = (body: string, secret = SECRET) => POST(new Request(`${env.APP_ORIGIN}/api/bounces`, { method: "POST", body, headers: { authorization: `Bearer ${secret}` } }));

test("an address refused while it is sent is shown at once, and not tried again", async () => {
  const { claimId, mail } = await aReceipt();
  env.SMTP_URL = `smtp://127.0.0.1:${(server.server.address() as AddressInfo).port}`;
  await sendQueuedMail(mail.id);
  await sendQueuedMail(mail.id);
  const row = await mailRow(mail.id);
  expect(row).toMatchObject({ state: "failed", attempts: 1 });
  expect(row.bouncedAt).not.toBeNull();
  const [support, product] = [await aStaffActor("support"), await aStaffActor("product")];
  expect(await loadBounce(support, claimId)).toMatchObject({ bounce: { address: "ada@example.com", reason: expect.stringContaining("unknown user") } });
  expect(await loadBounce(product, claimId)).toMatchObject({ bounce: { address: null, reason: "" } });
  const shown = await loadQueue(support, readQueueFilter({ mark: "unreached" }));
  expect(shown.ok && shown.rows.find(({ id }) => id === claimId)?.call).toBe("mail did not reach the customer: call");

  expect(await sayReached(support, claimId)).toEqual({ ok: true });
  expect(await sayReached(support, claimId)).toEqual({ ok: false, reason: "changed-meanwhile" });
  expect(await loadBounce(support, claimId)).toMatchObject({ bounce: null });
});

describe("a report that the mail server passes on", () => {
  test("marks the mail that was sent, once", async () => {
    env.BOUNCE_SECRET = SECRET;
    const { claimId, mail } = await aReceipt();
    await sendQueuedMail(mail.id);
    expect((await post(aReport(`${mail.id}@${host}`))).status).toBe(204);
    expect(await mailRow(mail.id)).toMatchObject({ state: "failed", sentAt: null, lastError: "5.1.1 550 unknown user" });
    expect((await post(aReport(`${mail.id}@${host}`))).status).toBe(202);
    expect(await database().auditEntry.count({ where: { claimId, action: "bounce_mail" } })).toBe(1);
  });

  test("is refused without the secret, and nothing is taken where none is set", async () => {
    const { mail } = await aReceipt();
    expect((await post(aReport(`${mail.id}@${host}`))).status).toBe(404);
    env.BOUNCE_SECRET = SECRET;
    expect((await post(aReport(`${mail.id}@${host}`), "another")).status).toBe(401);
    expect(await mailRow(mail.id)).toMatchObject({ bouncedAt: null });
  });

  test("changes nothing when it is about no mail of ours, or is no report, or too long", async () => {
    env.BOUNCE_SECRET = SECRET;
    const { mail } = await aReceipt();
    expect((await post(aReport(`${mail.id}@elsewhere.example`))).status).toBe(202);
    expect((await post(aReport(`${randomUUID()}@${host}`))).status).toBe(202);
    expect((await post("Thank you for your mail.")).status).toBe(202);
    expect((await post("x".repeat(300 * 1024))).status).toBe(413);
    expect(await mailRow(mail.id)).toMatchObject({ bouncedAt: null });
  });
});
