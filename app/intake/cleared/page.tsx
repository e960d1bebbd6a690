import type { Metadata } from "next";
import Link from "next/link";
import { currentWords } from "@/lib/access/language";

export async function generateMetadata(): Promise<Metadata> {
  return { title: (await currentWords())("intake.cleared.heading") };
}

/** A check has put it right before anything was filed. */
export default async function ClearedPage() {
  const words = await currentWords();
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>{words("intake.cleared.heading")}</h1>
        <p>{words("intake.cleared.text")}</p>
        <p>
          <Link className="button plain" href="/">
            {words("intake.cleared.start")}
          </Link>
        </p>
      </div>
    </main>
  );
}
