import type { KeptMail } from "@/lib/operations/load-mail";

const STATE_NAMES = { queued: "waiting to go out", sent: "sent", failed: "could not be sent yet, will be tried again" } as const;

/** How far a mail has come. */
export function mailState({ state, isGivenUp }: Pick<KeptMail, "state" | "isGivenUp">): string {
  return isGivenUp ? "could not be sent, given up" : STATE_NAMES[state];
}
