"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";

const EVERY_MS = 3000;

/** Looks again while a trial runs; without script the link does. */
export function LookAgain({ address }: { address: string }) {
  const { refresh } = useRouter();
  useEffect(() => {
    const timer = setInterval(refresh, EVERY_MS);
    return () => clearInterval(timer);
  }, [refresh]);
  return (
    <a href={address} className="no-print">
      Look again
    </a>
  );
}
