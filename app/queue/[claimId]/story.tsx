import Link from "next/link";
import type { StaffClaim } from "@/lib/operations/load-claim";
import type { inZone } from "../times";
import css from "./claim.module.css";
import { actInWords, STORY_THREADS, THREAD_WORDS, threadOf } from "./story-words";

const SHOWN_AT_ONCE = 8;

/**
 * Everything that was done to the claim, the newest first; the older acts folded away.
 *
 * @param thread one thread alone; of anything else all is shown
 */
export function Story({ claim, zone, thread }: { claim: StaffClaim; zone: ReturnType<typeof inZone>; thread: string | undefined }) {
  const chosen = STORY_THREADS.find((known) => known === thread);
  const entries = claim.story.filter(({ action }) => !chosen || threadOf(action) === chosen).reverse();
  const acts = (some: StaffClaim["story"]) => (
    <ul className={css.story}>
      {some.map((entry) => (
        <li key={entry.id}>
          <span className="small soft">{zone.time(entry.at)}</span>
          <span>
            {entry.actor} {actInWords(entry, claim)}
          </span>
        </li>
      ))}
    </ul>
  );
  const older = entries.slice(SHOWN_AT_ONCE);
  const choice = (name: string, words: string, isChosen: boolean) => (
    <Link key={name} href={`/queue/${claim.id}${name ? `?story=${name}` : ""}#story`} scroll={false} {...(isChosen ? { "aria-current": "true" as const } : {})}>
      {words}
    </Link>
  );
  return (
    <section className="sheet" id="story">
      <h2>{chosen ? `The story: ${THREAD_WORDS[chosen]}` : "The story of this claim"}</h2>
      <nav aria-label="Threads of the story" className={`${css.threads} small no-print`}>
        {choice("", "all of it", !chosen)}
        {STORY_THREADS.filter((known) => claim.story.some(({ action }) => threadOf(action) === known)).map((known) => choice(known, THREAD_WORDS[known], known === chosen))}
      </nav>
      {acts(entries.slice(0, SHOWN_AT_ONCE))}
      {older.length > 0 ? (
        <details>
          <summary>{older.length} older</summary>
          {acts(older)}
        </details>
      ) : null}
    </section>
  );
}
