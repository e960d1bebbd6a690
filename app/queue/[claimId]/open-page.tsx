"use client";

import { useEffect, useState } from "react";

/** Tells the server that this page is open, while it is in sight, and shows who else is in the claim. */
export function OpenPage({ claimId, others, seconds }: { claimId: string; others: readonly string[]; seconds: number }) {
  const [names, setNames] = useState(others);
  useEffect(() => {
    const address = `/queue/${claimId}/presence`;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tell = async () => {
      clearTimeout(timer);
      if (document.visibilityState === "hidden") return;
      timer = setTimeout(tell, seconds * 1000);
      const answer = await fetch(address, { method: "POST" }).catch(() => null);
      if (answer?.ok) setNames(((await answer.json()) as { others: readonly string[] }).others);
    };
    const leave = () => {
      clearTimeout(timer);
      navigator.sendBeacon(`${address}?left`);
    };
    const seen = () => void (document.visibilityState === "hidden" ? leave() : tell());
    void tell();
    document.addEventListener("visibilitychange", seen);
    return () => {
      document.removeEventListener("visibilitychange", seen);
      leave();
    };
  }, [claimId, seconds]);
  return (
    <p role="status" className="small">
      {names.length > 0 ? <strong>{`${listed(names)} ${names.length === 1 ? "has" : "have"} this claim open too.`}</strong> : null}
    </p>
  );
}

const listed = (names: readonly string[]) => new Intl.ListFormat("en-GB", { type: "conjunction" }).format(names);
