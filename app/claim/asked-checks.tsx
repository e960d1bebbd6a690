import { Balloon } from "@/app/_components/balloon";
import { Cautions } from "@/app/_components/cautions";
import { drawnFields } from "@/app/_drawings/drawn-fields";
import { sayIn, wordsIn } from "@/lib/messages/words";
import type { MyClaim } from "@/lib/operations/load-my-claim";
import { answerAskedCheck } from "./actions";
import { AnswerForm } from "./answer-form";

/** What the desk has asked the customer to look at, each with a place for the answer. */
export function AskedChecks({ mine: { asked, claim } }: { mine: MyClaim }) {
  const words = wordsIn(claim.language);
  const say = sayIn(claim.language);
  return asked.map(({ id, note, field, part, cautions }) => (
    <section key={id} className="sheet">
      <h2>
        <Balloon part={part} isHot name={say(`browser.parts.${part}`)} /> {words("claim.asked.heading")}
      </h2>
      {note ? <p>{note}</p> : null}
      <Cautions codes={cautions} say={say} />
      <AnswerForm
        field={field}
        drawn={drawnFields([field], claim.units, words)[field.name]}
        action={answerAskedCheck.bind(null, claim.reference, id)}
        copyKey={`${claim.reference}.check.${id}`}
        label={words("claim.asked.send")}
        {...(field.kind === "number" ? { cannotTell: words("claim.asked.cannotTell") } : {})}
      />
    </section>
  ));
}
