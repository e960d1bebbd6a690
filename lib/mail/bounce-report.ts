import "server-only";

/** What a report of mail that could not be delivered says. */
export interface BounceReport {
  /** Message-ID of the mail it is about, without its angle brackets. */
  messageId: string;
  /** In the server's words, with its status: "5.1.1 unknown user". */
  reason: string;
}

/**
 * A delivery status notification that says a mail has failed for good, or null for anything else: delays, receipts, answers
 * from people.
 *
 * Source: RFC 3464 (the status, `Action` and `Status` by recipient), RFC 3462 (the frame), RFC 5322 (folded header
 * lines); from memory. Example: `Action: failed`, `Status: 5.1.1` and the headers of our mail below.
 */
export function readBounceReport(raw: string): BounceReport | null {
  const { headers, body } = partOf(raw.replaceAll("\r\n", "\n"));
  const type = headers.get("content-type") ?? "";
  const boundary = /boundary="?([^";\n]+)"?/i.exec(type)?.[1]?.trim();
  if (!/^multipart\/report\b/i.test(type) || !boundary) return null;
  const parts = body.split(`--${boundary}`).slice(1).map((part) => partOf(part.replace(/^\n/, "")));
  const ofType = (types: RegExp) => parts.find((part) => types.test(part.headers.get("content-type") ?? ""));
  const status = ofType(/^message\/(global-)?delivery-status\b/i);
  const original = ofType(/^(message\/(rfc822|global)|text\/rfc822-headers|message\/global-headers)\b/i);
  const failed = status?.body.split(/\n\n+/).map((fields) => headersOf(fields)).find((fields) => fields.get("action")?.toLowerCase() === "failed" && fields.get("status")?.startsWith("5."));
  const messageId = original && /<([^<>\s]+)>/.exec(partOf(original.body).headers.get("message-id") ?? "")?.[1];
  if (!failed || !messageId) return null;
  const said = (failed.get("diagnostic-code") ?? "").replace(/^[\w-]+;\s*/, "");
  return { messageId, reason: `${failed.get("status")} ${said}`.trim() };
}

/** A header and what follows its first empty line. */
function partOf(text: string): { headers: Map<string, string>; body: string } {
  const end = text.indexOf("\n\n");
  return end < 0 ? { headers: headersOf(text), body: "" } : { headers: headersOf(text.slice(0, end)), body: text.slice(end + 2) };
}

/** Header fields by their names in lower case, unfolded; of a repeated one the first. */
function headersOf(text: string): Map<string, string> {
  const fields = new Map<string, string>();
  for (const line of text.replace(/\n[ \t]+/g, " ").split("\n")) {
    const [, name, value] = /^([!-9;-~]+):\s*(.*)$/.exec(line) ?? [];
    if (name && value !== undefined && !fields.has(name.toLowerCase())) fields.set(name.toLowerCase(), value.trim());
  }
  return fields;
}
