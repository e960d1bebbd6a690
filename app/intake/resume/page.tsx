import type { Metadata } from "next";
import Link from "next/link";
import { resume } from "../actions";
import { KeyForm } from "../key-form";

export const metadata: Metadata = { title: "Go on with your complaint" };

/** The mailed link leads here. Mail scanners open links: only the button spends the key. */
export default async function ResumePage({ searchParams }: { searchParams: Promise<{ key?: string }> }) {
  const { key = "" } = await searchParams;
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>Go on with your complaint</h1>
        <KeyForm
          action={resume}
          linkKey={key}
          label="Go on"
          instead={
            <p>
              <Link href="/intake">Go on in this browser, or begin anew</Link>
            </p>
          }
        >
          <p>Press the button to go on in this browser. The link opens once.</p>
        </KeyForm>
      </div>
    </main>
  );
}
