import { AdvisedChecks } from "@/app/_advice/advised-checks";
import { wordsIn } from "@/lib/messages/words";
import type { MyClaim } from "@/lib/operations/load-my-claim";
import { clearMyClaim, tellMyCheck } from "./actions";

/** What the ranking says so far in the customer's words, and what is free to check. */
export function Advice({ mine: { advice, claim } }: { mine: MyClaim }) {
  if (!advice) return null;
  const words = wordsIn(claim.language);
  return (
    <section className="sheet" id="advice">
      <h2>{advice.account.headline}</h2>
      <p>
        {advice.account.sentence} {words("claim.advice.estimate")}
      </p>
      {advice.checks.length > 0 ? (
        <>
          <h3>{words("claim.advice.checks")}</h3>
          <AdvisedChecks
            heading="h4"
            checks={advice.checks}
            units={claim.units}
            words={words}
            reference={claim.reference}
            tell={(finding) => tellMyCheck.bind(null, claim.reference, finding)}
            clear={(finding) => clearMyClaim.bind(null, claim.reference, finding)}
          />
          <p className="small">{words("claim.advice.tellUs")}</p>
        </>
      ) : null}
      <p className="small soft">{words("cautions.makersData")}</p>
    </section>
  );
}
