import type { Metadata } from "next";
import Link from "next/link";
import { OilPath } from "./_components/oil-path";
import css from "./start.module.css";

export const metadata: Metadata = { title: { absolute: "Fit or Fault: a freshly fitted turbo leaks oil" } };

export default function StartPage() {
  return (
    <main id="main" className={`page ${css.start}`}>
      <div className="sheet">
        <p className="letter soft">Fit or Fault</p>
        <h1>Your freshly fitted turbo leaks oil. Let us find out why</h1>
        <p>
          Tell us what you see and how it is fitted. You are told at once what is free to check and whether to leave the engine off. Then a person looks at it, decides, and writes to
          you with the reasons.
        </p>
        <p className={css.go}>
          <Link className="button" href="/intake">
            Start a complaint
          </Link>
          <Link className="button plain" href="/claim">
            I have a complaint already
          </Link>
        </p>
        <ul className={css.facts}>
          <li>About five minutes, without an account.</li>
          <li>&ldquo;I don&rsquo;t know&rdquo; is always an answer.</li>
          <li>What you write is kept if the signal goes.</li>
        </ul>
      </div>
      <div className={`sheet ${css.drawing}`}>
        <OilPath id="start-oil-path" caption="The oil path of a turbo: oil comes in at the top, passes the bearings and falls through the drain into the crankcase, which breathes through the vent" />
        <p className="small soft">Oil comes in under pressure at 1, passes the bearings at 2 and falls through the drain at 3 by its weight alone. You point at it here, and so do we.</p>
      </div>
      <p className="small soft">
        <Link href="/sign-in">Sign in as staff</Link>
      </p>
    </main>
  );
}
