import type { Metadata } from "next";
import Link from "next/link";
import { redirect } from "next/navigation";
import { KeyForm } from "@/app/intake/key-form";
import { currentCustomer } from "@/lib/access/customer";
import { currentWords } from "@/lib/access/language";
import { openLink } from "../../actions";

export async function generateMetadata(): Promise<Metadata> {
  const words = await currentWords();
  return { title: words("find.title") };
}

/** The mailed link leads here. Mail scanners open links: only the button spends the key. */
export default async function OpenPage({ params, searchParams }: { params: Promise<{ reference: string }>; searchParams: Promise<{ key?: string }> }) {
  const { reference } = await params;
  // A browser that remembers the complaint needs no key, so that a link opened twice leads there twice.
  if (await currentCustomer(reference)) redirect(`/claim/${reference}`);
  const { key = "" } = await searchParams;
  const words = await currentWords();
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>{words("find.title")}</h1>
        <KeyForm
          action={openLink.bind(null, reference)}
          linkKey={key}
          label={words("find.open.open")}
          instead={
            <p>
              <Link href="/claim">{words("find.open.again")}</Link>
            </p>
          }
        >
          <p>{words("find.open.text")}</p>
        </KeyForm>
      </div>
    </main>
  );
}
