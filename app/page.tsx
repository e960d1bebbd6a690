import type { Metadata } from "next";
import Link from "next/link";
import { currentWords } from "@/lib/access/language";
import { sayIn } from "@/lib/messages/words";
import { OilPath } from "./_components/oil-path";
import css from "./start.module.css";

export async function generateMetadata(): Promise<Metadata> {
  const words = await currentWords();
  return { title: { absolute: words("start.title") } };
}

export default async function StartPage() {
  const words = await currentWords();
  return (
    <main id="main" className={`page ${css.start}`}>
      <div className="sheet">
        <p className="letter soft">Fit or Fault</p>
        <h1>{words("start.heading")}</h1>
        <p>{words("start.lead")}</p>
        <p className={css.go}>
          <Link className="button" href="/intake">
            {words("start.begin")}
          </Link>
          <Link className="button plain" href="/claim">
            {words("start.haveOne")}
          </Link>
        </p>
        <ul className={css.facts}>
          <li>{words("start.facts.minutes")}</li>
          <li>{words("start.facts.dontKnow")}</li>
          <li>{words("start.facts.kept")}</li>
        </ul>
      </div>
      <div className={`sheet ${css.drawing}`}>
        <OilPath id="start-oil-path" caption={words("start.drawing.caption")} say={sayIn(words.language)} />
        <p className="small soft">{words("start.drawing.text")}</p>
      </div>
      <p className="small soft">
        {/* No Link: the desk is in English, and the frame of the page says which language it is in. */}
        <a href="/sign-in" lang="en">
          Sign in as staff
        </a>
      </p>
    </main>
  );
}
