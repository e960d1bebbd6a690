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
      {customer.description ? <Words of={customer.name} text={customer.description} /> : null}
      {last ? <Words of={`${last.from} ${customer.wrote}`} text={last.body} /> : null}
    </>
  );
}

function Words({ of, text }: { of: string; text: string }) {
  return (
    <figure className={css.words}>
      <blockquote>
        {text.length > SHOWN ? (
          <>
            {`${text.slice(0, SHOWN)}\u2026 `}
            <a href="#messages">read on</a>
          </>
        ) : (
          text
        )}
      </blockquote>
      <figcaption className="small soft">{of}</figcaption>
    </figure>
  );
}
