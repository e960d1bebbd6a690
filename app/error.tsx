"use client";

export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>Something went wrong on our side</h1>
        <p>What was saved before is kept. Try again; if it happens again, tell us this code: {error.digest ?? "none"}.</p>
        <button type="button" className="button" onClick={reset}>
          Try again
        </button>
      </div>
    </main>
  );
}
