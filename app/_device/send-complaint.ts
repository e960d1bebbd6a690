import { changeComplaint, forgetComplaint, keptComplaint } from "./kept-on-device";
import { nameComplaintOfPhotos } from "./photo-sending";

/** What has become of the complaint that this device keeps. */
export type SentState =
  | { state: "nothing" }
  /** There is no signal, or no room with us just now: it goes by itself later. */
  | { state: "waits" }
  | { state: "filed"; reference: string }
  | { state: "open"; reference: string; goTo: string }
  | { state: "another-open" | "refused" };

/** Sends what has not reached us, in one window at a time. */
export async function sendComplaint(): Promise<SentState> {
  if (!("locks" in navigator)) return sendAlone();
  return navigator.locks.request("fit-or-fault.complaint", sendAlone);
}

async function sendAlone(): Promise<SentState> {
  const kept = await keptComplaint().catch(() => null);
  if (!kept || (kept.notSent.length === 0 && !kept.isSent)) return { state: "nothing" };
  const answered = await post(kept);
  if (answered.state === "filed") {
    await forgetComplaint();
    await nameComplaintOfPhotos(kept.reference, answered.reference);
  }
  if (answered.state === "open") {
    await changeComplaint((now) => ({ ...now, reference: answered.reference, notSent: now.notSent.filter((screen) => JSON.stringify(now.answers[screen]) !== JSON.stringify(kept.answers[screen])), isSent: false }));
    await nameComplaintOfPhotos(kept.reference, answered.reference);
  }
  return answered;
}

async function post({ keptAt: _, ...kept }: NonNullable<Awaited<ReturnType<typeof keptComplaint>>>): Promise<SentState> {
  try {
    const answer = await fetch("/intake/kept", { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(kept), signal: AbortSignal.timeout(60_000) });
    const answered = (await answer.json()) as SentState | { state: "wait" };
    return answered.state === "wait" ? { state: "waits" } : answered;
  } catch {
    return { state: "waits" };
  }
}
