import type { StaffClaim } from "@/lib/operations/load-claim";
import type { inZone } from "../times";
import css from "./claim.module.css";
import { actInWords } from "./story-words";

const SHOWN_AT_ONCE = 10;

/** Everything that was done to the claim, the newest first; the older acts folded away. */
export function Story({ claim, zone }: { claim: StaffClaim; zone: ReturnType<typeof inZone> }) {
  const entries = [...claim.story].reverse();
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
  return (
    <section className={`sheet ${css.last}`}>
      <h2>The story of this claim</h2>
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
