import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { type ParsedMail, simpleParser } from "mailparser";
import pg from "pg";
import { expect } from "@playwright/test";

/** A unit shipped lately, for a known vehicle, about which nobody has complained. */
export async function soundUnit(): Promise<{ serial: string; kitCode: string }> {
  const client = new pg.Client({ connectionString: process.env.E2E_DATABASE_URL });
  await client.connect();
  try {
    const { rows } = await client.query<{ serial: string; kitCode: string }>(
      `select u.serial, k.code as "kitCode"
         from shipment s
         join unit u on u.id = s.unit_id
         join kit_revision r on r.id = s.kit_revision_id
         join kit k on k.id = r.kit_id
         join turbo_model m on m.id = u.turbo_model_id
         join vehicle v on v.id = s.vehicle_id
        where m.staging = 'single' and v.fuel = 'diesel' and not exists (select from claim c where c.unit_id = u.id)
        order by s.shipped_on desc, u.serial
        limit 1`,
    );
    if (!rows[0]) throw new Error("the demo has no unit without a claim");
    return rows[0];
  } finally {
    await client.end();
  }
}

/** Waits for the mail to an address whose subject and words match, as the worker has put it into the mail folder. */
export async function mailTo(address: string, subject: RegExp, words: RegExp = /./): Promise<ParsedMail> {
  const folder = process.env.E2E_MAIL_FOLDER ?? "";
  let found: ParsedMail | undefined;
  await expect
    .poll(
      async () => {
        for (const name of readdirSync(folder).filter((one) => one.endsWith(".eml"))) {
          const mail = await simpleParser(readFileSync(path.join(folder, name)));
          const to = Array.isArray(mail.to) ? mail.to[0] : mail.to;
          if (to?.value[0]?.address === address && subject.test(mail.subject ?? "") && words.test(mail.text ?? "")) found = mail;
        }
        return found !== undefined;
      },
      { message: `mail to ${address} about ${subject}` },
    )
    .toBe(true);
  if (!found) throw new Error("unreachable: polled until found");
  return found;
}
