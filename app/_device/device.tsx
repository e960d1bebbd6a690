"use client";

import { usePathname } from "next/navigation";
import { useEffect, useState } from "react";
import type { Language } from "@/lib/domain/claims/languages";
import { sayFrom } from "@/lib/domain/say";
import type { SentState } from "./send-complaint";
import { somethingWaits, whenSomethingWaits } from "./waits";

const RETRY_MS = 20_000;

/** The first question is read meanwhile, and the first tap does not wait for what is fetched for later. */
const READS_MS = 4000;

/**
 * On every page for customers: sends what this device has kept without a signal, and says what has become of it; on those
 * of the intake it sees to it that the form works without one from then on.
 *
 * @param texts the part `device` of the message file
 */
export function Device({ texts, language }: { texts: Readonly<Record<string, string>>; language: Language }) {
  const say = sayFrom(texts, language);
  const path = usePathname();
  const isIntake = path.startsWith("/intake");
  const [sent, setSent] = useState<SentState>({ state: "nothing" });
  const [tries, setTries] = useState(0);

  // biome-ignore lint/correctness/useExhaustiveDependencies: looked at again on each page, and with each try.
  useEffect(() => {
    if (!somethingWaits()) return;
    void import("./photo-sending").then(({ pickUpPhotos }) => pickUpPhotos());
    void import("./send-complaint").then(async ({ sendComplaint }) => {
      const now = await sendComplaint();
      // Without a signal the page that works without one says it by itself.
      // Sending goes in order, so the newest is known last, also where another try has begun meanwhile.
      setSent((before) => (now.state !== "nothing" || before.state === "waits" ? now : before));
    });
    const again = () => setTries((before) => before + 1);
    addEventListener("online", again);
    const later = setTimeout(again, RETRY_MS);
    return () => {
      removeEventListener("online", again);
      clearTimeout(later);
    };
  }, [path, tries]);

  useEffect(() => whenSomethingWaits(() => setTries((before) => before + 1)), []);

  useEffect(() => {
    if (path === "/intake/cleared") void import("./kept-on-device").then(({ forgetDraft }) => forgetDraft()).catch(() => {});
  }, [path]);

  useEffect(() => {
    if (isIntake) void standByOffline(language);
  }, [isIntake, language]);

  if (sent.state === "nothing") return null;
  return (
    <div className="page column no-print" role="status">
      <p className="note">
        {"reference" in sent ? say(`device.${sent.state}`, { reference: sent.reference }) : say(`device.${sent.state}`)}{" "}
        {sent.state === "filed" ? <a href={`/claim/${sent.reference}`}>{say("device.openIt", { reference: sent.reference })}</a> : null}
        {sent.state === "open" ? <a href={sent.goTo}>{say("device.goOn")}</a> : null}
        {sent.state === "waits" ? (
          <button type="button" className="link-button" onClick={() => setTries((before) => before + 1)}>
            {say("device.tryNow")}
          </button>
        ) : null}
      </p>
    </div>
  );
}

/** Where the browser can, has the form's pages answered from the device when there is no signal. */
async function standByOffline(language: Language): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  try {
    await untilRead();
    await navigator.serviceWorker.register(`/intake/worker.js?language=${language}`, { scope: "/intake", updateViaCache: "none" });
    const { active } = await navigator.serviceWorker.ready;
    // What is fetched only when it is needed must be there by then.
    await Promise.all([import("./photo-sending"), import("./send-complaint"), import("@/app/intake/check-screen")]);
    active?.postMessage(performance.getEntriesByType("resource").map(({ name }) => name).join(" "));
  } catch {
    // In some private windows nothing may be kept: the form then needs a signal, as without script.
  }
}

const untilRead = () => new Promise<void>((resolve) => (document.readyState === "complete" ? setTimeout(resolve, READS_MS) : addEventListener("load", () => setTimeout(resolve, READS_MS), { once: true })));
