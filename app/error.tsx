"use client";

import { useErrorWords } from "./_language/error-words";

export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  const words = useErrorWords();
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>{words.heading}</h1>
        <p>
          {words.text} {error.digest ?? "?"}
        </p>
        <button type="button" className="button" onClick={reset}>
          {words.again}
        </button>
      </div>
    </main>
  );
}
