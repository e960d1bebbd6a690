import type { KeptMail } from "@/lib/operations/load-mail";

const STATE_NAMES = { queued: "waiting to go out", sent: "sent", failed: "could not be sent yet, will be tried again" } as const;

/** How far a mail has come. */
export function mailState({ state, isGivenUp }: Pick<KeptMail, "state" | "isGivenUp">): string {
  return isGivenUp ? "could not be sent, given up" : STATE_NAMES[state];
}

const TIME = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short", timeZone: "UTC" });

/** `25 Nov 2026, 13:58 UTC`: the machine's log is in the same time. */
export function mailTime(at: Date): string {
  return `${TIME.format(at)} UTC`;
}
