import Link from "next/link";
import type { StaffActor } from "@/lib/access/actors";
import { LAW_COMES_FIRST, type TermStanding } from "@/lib/domain/warranty/outcome";
import { loadWarranty } from "@/lib/operations/load-warranty";
import css from "./verdict.module.css";

const HEADINGS: Readonly<Record<TermStanding, string>> = {
  inside: "Inside the warranty terms",
  outside: "Outside the warranty terms",
  cannot_tell: "Whether the warranty terms hold cannot be told yet",
};

const STANDING_WORDS: Readonly<Record<TermStanding, string>> = { inside: "inside", outside: "outside", cannot_tell: "cannot tell" };

/** The account of the warranty terms as a section of the claim's sheet. */
export function WarrantySection(props: { actor: StaffActor; claimId: string }) {
  return (
    <section className="sheet" aria-labelledby="warranty-heading" id="warranty">
      <WarrantyAccount {...props} />
    </section>
  );
}

/** How the claim stands under the terms in force when its unit shipped, each term with its ground. */
export async function WarrantyAccount({ actor, claimId }: { actor: StaffActor; claimId: string }) {
  const loaded = await loadWarranty(actor, claimId);
  if (!loaded.ok) return null;
  const { standing, terms, each, countryNote } = loaded.outcome;
  return (
    <>
      <h2 id="warranty-heading">{HEADINGS[standing]}</h2>
      <ul className={css.terms}>
        {each.map(({ name, standing: stands, ground }) => (
          <li key={name}>
            <strong>{STANDING_WORDS[stands]}</strong>
            <span>
              {name}
              <br />
              <span className="small soft">{ground}</span>
            </span>
          </li>
        ))}
      </ul>
      <p className="note">{LAW_COMES_FIRST}</p>
      {countryNote ? (
        <p>
          <strong>For this country:</strong> {countryNote}
        </p>
      ) : null}
      <p className="small soft">
        Reckoned from what is known, and nothing follows from it by itself: the verdict is yours. {terms === null ? null : <Link href={`/settings/warranty/${terms}`}>Terms {terms}</Link>}
      </p>
    </>
  );
}
