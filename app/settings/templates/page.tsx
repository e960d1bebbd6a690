import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { dayIn } from "@/app/returns/return-words";
import { requireStaff } from "@/lib/access/staff";
import { fillTemplate, TEMPLATE_GAPS, type TemplateFacts } from "@/lib/domain/claims/message-templates";
import { loadMessageTemplates, type MessageTemplate } from "@/lib/operations/message-templates";
import { TemplateForm } from "./template-form";
import css from "./templates.module.css";

export const metadata: Metadata = { title: "Message templates" };

const DONE: Readonly<Record<string, string>> = { kept: "Kept. It is filled in so from now on.", dropped: "Dropped. What was written with it stays." };

/** A made-up claim, to show how a template reads. */
const EXAMPLE: TemplateFacts = {
  name: "Ada Brink",
  reference: "K7A-4821-HXQ",
  kit: "Tarn 62 drop-in",
  vehicle: "Corvane Hauler 3.2 D, from 2014",
  "check asked": "Run of the drain",
  "promised day": "Friday, 27 November 2026",
  "return number": "R-K7A-4821-HXQ",
  "seller phone": "+00 555 0100",
};

/** The messages that are written often, with gaps that a claim fills. */
export default async function TemplatesPage({ searchParams }: { searchParams: Promise<{ said?: string; change?: string }> }) {
  const actor = await requireStaff("/settings/templates");
  const loaded = await loadMessageTemplates(actor);
  if (!loaded.ok) forbidden();
  const { said, change } = await searchParams;
  const { templates } = loaded;
  const changed = templates.find(({ id }) => id === change);
  const isNew = change === "new";
  return (
    <DeskShell actor={actor} here="Settings">
      <h1>{templates.length === 1 ? "One message template" : `${templates.length} message templates`}</h1>
      {said && DONE[said] ? (
        <p className="note" role="status">
          <strong>{DONE[said]}</strong>
        </p>
      ) : null}
      <p className="soft">
        Chosen beside a message on a claim, which fills the gaps: {TEMPLATE_GAPS.map((gap) => `{${gap}}`).join(", ")}. What a claim does not know stays a gap there, and nothing goes out with a gap in it. A mail begins with the greeting by
        itself.
      </p>
      {changed || isNew ? (
        <section className="sheet">
          <h2>{changed ? `Change "${changed.name}"` : "A new template"}</h2>
          <TemplateForm key={changed?.version ?? "new"} template={changed ?? null} />
        </section>
      ) : (
        <p className="no-print">
          <Link className="button tight" href="/settings/templates?change=new">
            Write a new one
          </Link>
        </p>
      )}
      <div className={css.list}>
        {templates.map((template) => (
          <Template key={template.id} template={template} changedOn={dayIn(loaded.timeZone, template.changedAt)} />
        ))}
      </div>
    </DeskShell>
  );
}

function Template({ template: { id, name, english, german, changedBy }, changedOn }: { template: MessageTemplate; changedOn: string }) {
  return (
    <section className="sheet" id={id}>
      <h2>{name}</h2>
      <p className={css.text}>{fillTemplate(english, EXAMPLE).text}</p>
      <details>
        <summary>In German</summary>
        <p className={css.text} lang="de">
          {fillTemplate(german, EXAMPLE).text}
        </p>
      </details>
      <p className="small soft">
        <Link className={css.change} href={`/settings/templates?change=${id}`}>
          Change<span className="visually-hidden"> {name}</span>
        </Link>
        {changedBy ? `; by ${changedBy.name}, ${changedOn}` : ""}
      </p>
    </section>
  );
}
