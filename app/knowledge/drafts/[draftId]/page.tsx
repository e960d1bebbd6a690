import type { Metadata } from "next";
import Link from "next/link";
import { DeskShell } from "@/app/_desk/desk-shell";
import type { EditionIssue } from "@/lib/inputs/edition";
import { dropDraftHere, keepEditsHere, proposeDraftHere } from "../../actions";
import { Changes, fieldInWords } from "../../changes";
import css from "../../knowledge.module.css";
import { DraftForm } from "../draft-form";
import { TextField } from "../fields";
import { readDraftAt, SAID } from "../read-draft";

export const metadata: Metadata = { title: "The next edition" };

export default async function DraftPage({ params, searchParams }: { params: Promise<{ draftId: string }>; searchParams: Promise<{ said?: string }> }) {
  const [{ draftId }, { said }] = await Promise.all([params, searchParams]);
  const { actor, work, fields } = await readDraftAt(draftId);
  const { basis, edited, diff, issues, inForce, nextCodes } = work;
  const things = diff.length === 1 ? "one thing" : `${diff.length} things`;
  return (
    <DeskShell actor={actor} here="Knowledge">
      <h1>{diff.length === 0 ? `Nothing of edition ${basis.number} is changed yet` : `This draft changes ${things} of edition ${basis.number}`}</h1>
      {said && SAID[said] ? (
        <p className="note" role="status">
          <strong>{SAID[said]}</strong>
        </p>
      ) : null}
      {basis.number === inForce ? null : (
        <p className="note">Edition {inForce} is in force: what it changed is not in this draft.</p>
      )}
      <div className={css.sheets}>
        <Issues issues={issues} draftId={draftId} hasWhy={Boolean(fields.typed.why)} isRefused={said === "refused"} />
        <section className="sheet" aria-labelledby="changes">
          <h2 id="changes">What it changes</h2>
          <Changes diff={diff} edition={edited} />
        </section>
        <section className="sheet" aria-labelledby="propose">
          <h2 id="propose">Propose it</h2>
          <DraftForm
            action={keepEditsHere.bind(null, draftId, "/")}
            copyKey={`${draftId}.whole`}
            isKept={said === "kept"}
            acts={
              <button type="submit" className="button tight plain" formAction={proposeDraftHere.bind(null, draftId)}>
                Propose the edition
              </button>
            }
          >
            <div className={css.pair}>
              <TextField fields={fields} field="name" label="Name of the edition" />
              <TextField fields={fields} field="why" label="What it is for" rows={2} />
            </div>
          </DraftForm>
        </section>
        <div className={css.pair}>
          <section className="sheet" aria-labelledby="causes">
            <h2 id="causes">Causes to change</h2>
            <Codes list="causes" things={basis.causes} added={edited.causes} draftId={draftId} next={nextCodes.cause} word="cause" />
          </section>
          <section className="sheet" aria-labelledby="findings">
            <h2 id="findings">Findings to change</h2>
            <Codes list="findings" things={basis.findings} added={edited.findings} draftId={draftId} next={nextCodes.finding} word="finding" />
          </section>
        </div>
        <form action={dropDraftHere.bind(null, draftId)}>
          <details>
            <summary>Throw the draft away</summary>
            <button type="submit" className="button tight plain">
              Throw it away for good
            </button>
          </details>
        </form>
      </div>
    </DeskShell>
  );
}

interface Coded {
  code: string;
  name: string;
}

function Codes({ list, things, added, draftId, next, word }: { list: "causes" | "findings"; things: readonly Coded[]; added: readonly Coded[]; draftId: string; next: string; word: string }) {
  const all = [...things, ...added.filter(({ code }) => !things.some((one) => one.code === code))].map(({ code, name }) => ({ code, name: added.find((one) => one.code === code)?.name ?? `${name}, retired` }));
  return (
    <ul className={css.story}>
      {all.map(({ code, name }) => (
        <li key={code}>
          <span className={css.code}>{code}</span> <Link href={`/knowledge/drafts/${draftId}/${list}/${code}`}>{name || "without a name"}</Link>
        </li>
      ))}
      <li>
        <span className={css.code}>{next}</span> <Link href={`/knowledge/drafts/${draftId}/${list}/${next}`}>Add a {word}</Link>
      </li>
    </ul>
  );
}

function Issues({ issues, draftId, hasWhy, isRefused }: { issues: readonly EditionIssue[]; draftId: string; hasWhy: boolean; isRefused: boolean }) {
  const all = [...issues, ...(isRefused && !hasWhy ? [{ path: "why", message: "Say what the new edition is for." }] : [])];
  if (all.length === 0) return null;
  return (
    <section className="error-summary" aria-labelledby="issues">
      <h2 id="issues">{all.length === 1 ? "One field needs another look before it can be proposed" : `${all.length} fields need another look before it can be proposed`}</h2>
      <ul>
        {all.map(({ path, message }) => {
          const [, list, code] = /^(causes|findings)\.([CF]\d{2,3})/.exec(path) ?? [];
          const words = `${code ? `${code} ` : ""}${fieldInWords(path)}`;
          return (
            <li key={path + message}>
              {list ? <Link href={`/knowledge/drafts/${draftId}/${list}/${code}#${path}`}>{words}</Link> : <a href={`#${path}`}>{words}</a>}: {message}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
