import type { Metadata } from "next";
import Link from "next/link";
import { KeyForm } from "@/app/intake/key-form";
import { openLink } from "../../actions";

export const metadata: Metadata = { title: "Open your complaint" };

/** The mailed link leads here. Mail scanners open links: only the button spends the key. */
export default async function OpenPage({ params, searchParams }: { params: Promise<{ reference: string }>; searchParams: Promise<{ key?: string }> }) {
  const { reference } = await params;
  const { key = "" } = await searchParams;
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>Open your complaint</h1>
        <KeyForm
          action={openLink.bind(null, reference)}
          linkKey={key}
          label="Open my complaint"
          instead={
            <p>
              <Link href="/">Ask for a new link on the first page</Link>
            </p>
          }
        >
          <p>Press the button to open it in this browser. The link opens once; afterwards this browser remembers it.</p>
        </KeyForm>
      </div>
    </main>
  );
}
