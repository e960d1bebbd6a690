import Form from "next/form";
import Link from "next/link";
import type { StaffActor } from "@/lib/access/actors";
import { LANGUAGE_NAMES, LANGUAGES, type Language } from "@/lib/domain/claims/languages";
import { may } from "@/lib/domain/claims/permissions";
import type { StaffClaim } from "@/lib/operations/load-claim";
import { loadFilledTemplate } from "@/lib/operations/load-filled-template";
import { KeyHint } from "../keys";
import type { inZone } from "../times";
import { ActForm } from "./act-form";
import { setAside, write } from "./actions";
import css from "./claim.module.css";
import { MessageForm } from "./message-form";

interface Props {
  claim: StaffClaim;
  zone: ReturnType<typeof inZone>;
  actor: StaffActor;
  /** The message template chosen in the address, and the language. */
  chosen: { template?: string | undefined; language?: string | undefined };
}

/** Who the customer is, what was written either way, and the next message. */
export function Messages({ claim, zone, actor, chosen }: Props) {
  const { customer } = claim;
  if (!customer) return null;
  const facts = [
    ["Name", customer.name],
    ["E-mail", customer.email],
    ...(customer.phone ? [["Telephone", customer.phone]] : []),
    ["Reads", LANGUAGE_NAMES[customer.language]],
    ...(customer.country ? [["Country", customer.country]] : []),
    ...(customer.orderNumber ? [["Order", customer.orderNumber]] : []),
    ...(customer.serial && customer.serial !== claim.unit?.serial ? [["Serial as typed", customer.serial]] : []),
    ...(customer.fitter ? [["Fitted by", customer.fitter]] : []),
  ];
  return (
    <section className="sheet" id="messages">
      <h2>{customer.wrote ? `The customer ${customer.wrote}` : "The customer, and what was written"}</h2>
      <dl className={css.facts}>
        {facts.map(([name, value]) => (
          <div key={name} className={css.fact}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <ul className={css.messages}>
        {[{ reference: null, name: customer.name, description: customer.description, language: customer.language }, ...customer.alsoTold].map(({ reference, name, description, language }) =>
          description ? (
            <li key={reference} data-from="customer">
              <span className="small soft">
                {name}, in the complaint {reference}
              </span>
              <p lang={language}>{description}</p>
            </li>
          ) : null,
        )}
        {customer.messages.map(({ id, from, isStaff, body, createdAt, about, language }) => (
          <li key={id} data-from={isStaff ? "staff" : "customer"}>
            <span className="small soft">
              {from}, {zone.time(createdAt)}
              {about ? `, about ${about}` : ""}
            </span>
            <p lang={language}>{body}</p>
          </li>
        ))}
      </ul>
      {may(actor.role, "write a message") ? <Writing claim={claim} actor={actor} chosen={chosen} /> : null}
      {customer.wrote && may(actor.role, "write a message") ? <ActForm action={setAside.bind(null, claim.id)} label="It needs no answer" isPlain className={`no-print ${css.after}`} /> : null}
    </section>
  );
}

/** A message to the customer, empty or filled from a template. Choosing one reloads the page with its text in the box. */
async function Writing({ claim, actor, chosen }: Omit<Props, "zone">) {
  const language = LANGUAGES.find((known): known is Language => known === chosen.language);
  const loaded = await loadFilledTemplate(actor, claim.id, { id: chosen.template || undefined, language });
  if (!loaded.ok) return null;
  const { templates, filled } = loaded;
  return (
    <div className="no-print">
      <Form action={`/queue/${claim.id}#writing`} scroll={false} className={css.line}>
        <label htmlFor="template">
          From a template <KeyHint sign="T" />
        </label>
        <select id="template" name="template" defaultValue={filled?.id ?? ""} key={filled?.id} data-key="t">
          <option value="">none</option>
          {templates.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
        <select name="language" aria-label="Language of the template" defaultValue={loaded.language} key={loaded.language}>
          {LANGUAGES.map((known) => (
            <option key={known} value={known}>
              {LANGUAGE_NAMES[known]}
            </option>
          ))}
        </select>
        <button type="submit" className="button tight plain">
          Fill it in
        </button>
        {may(actor.role, "change message templates") ? (
          <Link className="small" href="/settings/templates">
            Templates
          </Link>
        ) : null}
      </Form>
      <MessageForm key={`${filled?.id} ${loaded.language}`} action={write.bind(null, claim.id)} language={loaded.language} text={filled?.text ?? ""} open={filled?.open ?? []} isFilled={filled !== null} />
    </div>
  );
}
