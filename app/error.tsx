"use client";

import { useSay } from "./_language/browser-words";

export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  const say = useSay();
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>{say("browser.broken.heading")}</h1>
        <p>{say("browser.broken.text", { code: error.digest ?? "0" })}</p>
        <button type="button" className="button" onClick={reset}>
          {say("browser.broken.again")}
        </button>
      </div>
    </main>
  );
}
