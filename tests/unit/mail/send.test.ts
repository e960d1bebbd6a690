import { mkdtemp, readFile, rm } from "node:fs/promises";
import type { AddressInfo } from "node:net";
import os from "node:os";
import path from "node:path";
import { type ParsedMail, simpleParser } from "mailparser";
import { SMTPServer } from "smtp-server";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { composeMail } from "@/lib/mail/compose";
import { type MailToSend, refusedForGood, sendMail } from "@/lib/mail/send";

interface Received {
  /** Whom the server was asked to deliver to, whatever the headers say. */
  recipients: string[];
  mail: ParsedMail;
}

let folder = "";
let received: Received[] = [];
let refuses = false;
const server = new SMTPServer({
  authOptional: true,
  disabledCommands: ["STARTTLS"],
  onData(stream, { envelope }, done) {
    simpleParser(stream).then((mail) => {
      if (refuses) return done(new Error("no room"));
      received.push({ recipients: envelope.rcptTo.map(({ address }) => address), mail });
      done();
    }, done);
  },
});
const settings = { SMTP_URL: undefined as string | undefined, MAIL_FOLDER: "", APP_ORIGIN: "https://claims.example.com" };

beforeAll(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), "fit-or-fault-mail-"));
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  settings.SMTP_URL = `smtp://127.0.0.1:${(server.server.address() as AddressInfo).port}`;
  settings.MAIL_FOLDER = folder;
});
beforeEach(() => {
  received = [];
  refuses = false;
});
afterAll(async () => {
  await new Promise<void>((closed) => server.close(closed));
  await rm(folder, { recursive: true, force: true });
});

function aMail(given: Partial<MailToSend> = {}): MailToSend {
  const { subject, text, html } = composeMail({ subject: "Your complaint K7MP-4Q2-HXW", greeting: "Dear Ada \u00d6rnek \u{1F600},", paragraphs: ["We have it.\nLine two.", "<b>5 < 6</b> & more"], signature: ["The desk"] });
  return { id: "0b5f", from: { name: "The shop", address: "desk@example.com" }, to: { name: "Ada \u00d6rnek", address: "ada@example.com" }, subject, text, html, ...given };
}

const one = () => {
  expect(received).toHaveLength(1);
  return received[0] as Received;
};

describe("a mail over SMTP", () => {
  test("arrives with its text and its HTML as they were composed", async () => {
    const sent = aMail();
    await sendMail(sent, settings);
    const { mail, recipients } = one();
    expect(recipients).toEqual(["ada@example.com"]);
    expect(mail.from?.value).toEqual([{ name: "The shop", address: "desk@example.com" }]);
    expect(mail.subject).toBe(sent.subject);
    expect(mail.text?.trim()).toBe(sent.text.trim());
    expect(mail.html && mail.html.trim()).toBe(sent.html.trim());
    expect(mail.headers.get("auto-submitted")).toBe("auto-generated");
  });

  test("carries the same Message-ID when it is repeated, and another one than the next", async () => {
    for (const id of ["0b5f", "0b5f", "1c6a"]) await sendMail(aMail({ id }), settings);
    expect(received.map(({ mail }) => mail.messageId)).toEqual(["<0b5f@claims.example.com>", "<0b5f@claims.example.com>", "<1c6a@claims.example.com>"]);
  });

  test.each([
    ["subject", { subject: "Hello\r\nBcc: eve@example.com\r\n\r\nmine" }],
    ["name of the customer", { to: { name: "Ada\r\nBcc: eve@example.com", address: "ada@example.com" } }],
    ["name with another address", { to: { name: 'Ada" <eve@example.com>, "', address: "ada@example.com" } }],
    ["name of the seller", { from: { name: "Shop\nBcc: eve@example.com", address: "desk@example.com" } }],
  ])("takes no header and no recipient from the %s", async (_where, given) => {
    await sendMail(aMail(given), settings);
    const { mail, recipients } = one();
    expect(recipients).toEqual(["ada@example.com"]);
    expect(mail.headers.has("bcc")).toBe(false);
    expect([mail.to].flat().flatMap((to) => to?.value ?? []).map(({ address }) => address)).toEqual(["ada@example.com"]);
    expect(mail.text?.trim()).toBe(aMail().text.trim());
  });

  test("that the server refuses throws, so that it is tried again", async () => {
    refuses = true;
    await expect(sendMail(aMail(), settings)).rejects.toThrow("no room");
  });
});

test("without a server a mail is put into the folder, once, as it would have gone out", async () => {
  const sent = aMail({ id: "2d7b" });
  for (const _time of [1, 2]) await sendMail(sent, { ...settings, SMTP_URL: undefined });
  const mail = await simpleParser(await readFile(path.join(folder, "2d7b.eml")));
  expect(mail).toMatchObject({ subject: sent.subject, messageId: "<2d7b@claims.example.com>" });
  expect(mail.text?.trim()).toBe(sent.text.trim());
  expect(received).toEqual([]);
});

describe("an address that the server refuses", () => {
  const refusing = new SMTPServer({
    authOptional: true,
    disabledCommands: ["STARTTLS"],
    onRcptTo({ address }, _session, done) {
      done(Object.assign(new Error("5.1.1 unknown user"), { responseCode: address.startsWith("gone") ? 550 : 450 }));
    },
  });
  const errorOf = async (address: string) => {
    const { port } = refusing.server.address() as AddressInfo;
    return sendMail(aMail({ to: { name: "A", address } }), { ...settings, SMTP_URL: `smtp://127.0.0.1:${port}` }).catch((error: unknown) => error);
  };
  beforeAll(() => new Promise<void>((listening) => refusing.listen(0, "127.0.0.1", listening)));
  afterAll(() => new Promise<void>((closed) => refusing.close(closed)));

  test("for good is told from one that is refused for now, and from a server that does not answer", async () => {
    expect(refusedForGood(await errorOf("gone@example.com"))).toMatch(/^550 .*unknown user/);
    expect(refusedForGood(await errorOf("busy@example.com"))).toBeNull();
    expect(refusedForGood(await sendMail(aMail(), { ...settings, SMTP_URL: "smtp://127.0.0.1:1" }).catch((error: unknown) => error))).toBeNull();
    refuses = true;
    expect(refusedForGood(await sendMail(aMail(), settings).catch((error: unknown) => error))).toBeNull();
  });
});
