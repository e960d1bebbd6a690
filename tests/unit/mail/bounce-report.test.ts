import { describe, expect, test } from "vitest";
import { readBounceReport } from "@/lib/mail/bounce-report";

const MAIL_ID = "019abcde-1234-7000-8000-00000000abcd";

/** A report as mail servers write them, with the status of one recipient. */
function aReport({ action = "failed", status = "5.1.1", diagnostic = "smtp; 550 5.1.1 <gone@example.com>:\n    unknown user", type = "multipart/report; report-type=delivery-status", id = `<${MAIL_ID}@claims.example.com>` } = {}): string {
  return `Return-Path: <>
From: Mail server <mailer-daemon@mx.example.com>
To: desk@example.com
Subject: Undelivered
Content-Type: ${type};
	boundary="b1/mx"
MIME-Version: 1.0

--b1/mx
Content-Type: text/plain

Could not deliver. Action: failed is said below.

--b1/mx
Content-Type: message/delivery-status

Reporting-MTA: dns; mx.example.com
Arrival-Date: Mon, 2 Mar 2026 10:00:00 +0000

Final-Recipient: rfc822; gone@example.com
Action: ${action}
Status: ${status}
Diagnostic-Code: ${diagnostic}

--b1/mx
Content-Type: message/rfc822

Message-ID:
 ${id}
From: The shop <desk@example.com>
Subject: Your complaint

Action: failed
--b1/mx--
`;
}

describe("a report of mail that could not be delivered", () => {
  test("names the mail it is about and what the server said", () => {
    expect(readBounceReport(aReport())).toEqual({ messageId: `${MAIL_ID}@claims.example.com`, reason: "5.1.1 550 5.1.1 <gone@example.com>: unknown user" });
    expect(readBounceReport(aReport().replaceAll("\n", "\r\n"))).toEqual(readBounceReport(aReport()));
    expect(readBounceReport(aReport().replace("message/rfc822", "text/rfc822-headers"))?.messageId).toBe(`${MAIL_ID}@claims.example.com`);
  });

  test.each([
    ["a delay", aReport({ action: "delayed", status: "4.4.1" })],
    ["a failure for now", aReport({ status: "4.2.2" })],
    ["a receipt", aReport({ action: "delivered", status: "2.0.0" })],
    ["an answer of a person that quotes one", aReport({ type: "multipart/mixed" })],
    ["a report that does not name the mail", aReport({ id: "" })],
    ["nothing", ""],
    ["plain words", "Action: failed\nStatus: 5.1.1\n"],
  ])("is not what %s is", (_, raw) => {
    expect(readBounceReport(raw)).toBeNull();
  });
});
