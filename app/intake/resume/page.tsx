import type { Metadata } from "next";
import Link from "next/link";
import { currentWords } from "@/lib/access/language";
import { resume } from "../actions";
import { KeyForm } from "../key-form";

export async function generateMetadata(): Promise<Metadata> {
  const words = await currentWords();
  return { title: words("intake.resume.title") };
}

/** The mailed link leads here. Mail scanners open links: only the button spends the key. */
export default async function ResumePage({ searchParams }: { searchParams: Promise<{ key?: string }> }) {
  const { key = "" } = await searchParams;
  const words = await currentWords();
  return (
    <main id="main" className="page column">
      <div className="sheet">
        <h1>{words("intake.resume.title")}</h1>
        <KeyForm
          action={resume}
          linkKey={key}
          label={words("intake.resume.goOn")}
          instead={
            <p>
              <Link href="/intake">{words("intake.resume.here")}</Link>
            </p>
          }
        >
          <p>{words("intake.resume.text")}</p>
        </KeyForm>
      </div>
    </main>
  );
}
