import type { Language } from "@/lib/domain/claims/languages";
import type { StaffClaim } from "@/lib/operations/load-claim";
import css from "./in-their-words.module.css";

/** So much of what was written is shown at the head of the sheet; all of it stands with the messages. */
const SHOWN = 420;

/** The customer's own words, and what they wrote last where it waits for an answer. */
export function InTheirWords({ claim: { customer } }: { claim: StaffClaim }) {
  if (!customer) return null;
  const last = customer.wrote ? customer.messages.findLast(({ isStaff }) => !isStaff) : undefined;
  return (
    <>
      {customer.description ? <Words of={customer.name} text={customer.description} language={customer.language} /> : null}
      {last ? <Words of={`${last.from} ${customer.wrote}`} text={last.body} language={last.language} /> : null}
    </>
  );
}

function Words({ of, text, language }: { of: string; text: string; language: Language }) {
  return (
    <figure className={css.words}>
      <blockquote>
        {text.length > SHOWN ? (
          <>
            <span lang={language}>{`${text.slice(0, SHOWN)}\u2026 `}</span>
            <a href="#messages">read on</a>
          </>
        ) : (
          <span lang={language}>{text}</span>
        )}
      </blockquote>
      <figcaption className="small soft">{of}</figcaption>
    </figure>
  );
}
