export const STATE_NAMES = { queued: "waiting to go out", sent: "sent", failed: "could not be sent yet" } as const;

const TIME = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short", timeZone: "UTC" });

/** `25 Nov 2026, 13:58 UTC`: the machine's log is in the same time. */
export function mailTime(at: Date): string {
  return `${TIME.format(at)} UTC`;
}
