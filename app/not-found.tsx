import Link from "next/link";

export default function NotFound() {
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>There is no such page</h1>
        <p>The address may be mistyped, or the link may have run out. Nothing you wrote is lost.</p>
        <p>
          To find your complaint again, use its reference and your e-mail address <Link href="/">on the first page</Link>.
        </p>
      </div>
    </main>
  );
}
