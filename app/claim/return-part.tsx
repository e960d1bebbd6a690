import Link from "next/link";
import { Caution } from "@/app/_components/caution";
import type { Say } from "@/lib/domain/say";
import { isAwaited, isHere } from "@/lib/domain/claims/return-lifecycle";
import { carriageFields, senderFields } from "@/lib/inputs/send-in";
import type { Words } from "@/lib/messages/words";
import type { MyReturn } from "@/lib/operations/load-my-return";
import { FieldsForm } from "./fields-form";
import css from "./return-part.module.css";
import { makeMyLabel, tellMyCarriage } from "./send-in-actions";

interface Props {
  reference: string;
  returned: MyReturn;
  words: Words;
  say: Say;
}

/** The unit on its way to the seller, as its customer sees it: how to send it, its label, where it is. */
export function ReturnPart(props: Props) {
  const { returned, words } = props;
  const { number, state, receivedOn } = returned;
  if (isHere(state))
    return (
      <section className="sheet" id="send-in">
        <h2>{words("sendIn.here", { day: receivedOn ?? "" })}</h2>
        <p>{words("sendIn.hereText", { number })}</p>
      </section>
    );
  return (
    <section className="sheet" id="send-in">
      <Heading {...props} />
      {state === "in_carriage" ? null : <HowToSend {...props} />}
      <Way {...props} />
      {state === "in_carriage" ? (
        <details className={css.fold}>
          <summary>{words("sendIn.label.heading")}</summary>
          <Label {...props} />
        </details>
      ) : null}
    </section>
  );
}

function Heading({ returned: { number, state, sendBy, sentOn, carrier, trackingNumber }, words }: Props) {
  if (state === "in_carriage")
    return (
      <>
        <h2>{words("sendIn.onItsWay", { day: sentOn ?? "" })}</h2>
        {carrier ? <p>{trackingNumber ? words("sendIn.carriedUnder", { carrier, number: trackingNumber }) : words("sendIn.carriedBy", { carrier })}</p> : null}
      </>
    );
  if (isAwaited(state)) return <h2>{words("sendIn.heading", { number })}</h2>;
  return (
    <>
      <h2>{words("sendIn.ranOut", { day: sendBy })}</h2>
      <p>{words("sendIn.ranOutText", { number })}</p>
    </>
  );
}

function HowToSend(props: Props) {
  const { returned, words } = props;
  const [byWhen, ...address] = returned.whereTo.split("\n");
  return (
    <>
      <p>{byWhen}</p>
      <address className={css.address}>{address.join("\n")}</address>
      <Caution title={words("sendIn.caution.title")}>{words("sendIn.caution.text")}</Caution>
      <ol className={css.steps}>
        {returned.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <div className="no-print">
        <h3>{words("sendIn.label.heading")}</h3>
        <Label {...props} />
      </div>
    </>
  );
}

function Label({ reference, returned, words, say }: Props) {
  const form = <FieldsForm fields={senderFields(say)} known={returned.sender} action={makeMyLabel.bind(null, reference)} copyKey={`${reference}.sender`} label={words("sendIn.label.make")} />;
  if (!returned.label)
    return (
      <>
        <p>{words("sendIn.label.why")}</p>
        {form}
      </>
    );
  return (
    <>
      <p>
        <Link className="button" href={`/claim/${reference}/label`}>
          {words("sendIn.label.open")}
        </Link>
      </p>
      <details className={css.fold}>
        <summary>{words("sendIn.label.change")}</summary>
        {form}
      </details>
    </>
  );
}

/** Who carries the parcel: asked once, then folded away to be corrected. */
function Way({ reference, returned, words, say }: Props) {
  const { carrier, trackingNumber, state } = returned;
  const form = <FieldsForm fields={carriageFields(say)} known={{ carrier: carrier ?? "", trackingNumber: trackingNumber ?? "" }} action={tellMyCarriage.bind(null, reference)} copyKey={`${reference}.carriage`} label={words("sendIn.way.send")} />;
  if (state === "in_carriage")
    return (
      <details className={css.fold}>
        <summary>{words("sendIn.way.correct")}</summary>
        {form}
      </details>
    );
  return (
    <div className="no-print">
      <h3>{words("sendIn.way.heading")}</h3>
      <p>{words("sendIn.way.why")}</p>
      {form}
    </div>
  );
}
