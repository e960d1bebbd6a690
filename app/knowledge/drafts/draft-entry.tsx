import Link from "next/link";
import type { ReactNode } from "react";
import { DeskShell } from "@/app/_desk/desk-shell";
import { keepEditsHere } from "../actions";
import { DraftForm } from "./draft-form";
import { FateField, IssuesWithout } from "./fields";
import { type DraftAt, SAID } from "./read-draft";

interface Props {
  draftAt: DraftAt;
  kind: "cause" | "finding";
  code: string;
  /** What the edition the draft was made from calls it; none where it is new. */
  name: string | undefined;
  said: string | undefined;
  /** Above the form. */
  choice?: ReactNode;
  /** The fields. */
  children: ReactNode;
}

/** The page of one cause or finding of a draft: what it is called, what was said when it was last kept, its form. */
export function DraftEntry({ draftAt: { actor, work, fields }, kind, code, name, said, choice, children }: Props) {
  const at = `${kind}s.${code}`;
  const draftId = work.draft.id;
  return (
    <DeskShell actor={actor} here="Knowledge">
      <p className="small">
        <Link href={`/knowledge/drafts/${draftId}`}>Draft on edition {work.basis.number}</Link>
      </p>
      <h1>{name ? `${code} ${name}` : `${code}, a new ${kind}`}</h1>
      {said && SAID[said] ? (
        <p className="note" role="status">
          {SAID[said]} {work.issues.some(({ path }) => path.startsWith(at)) ? "Something here needs another look before it can be proposed." : ""}
        </p>
      ) : null}
      <section className="sheet">
        {choice}
        <DraftForm action={keepEditsHere.bind(null, draftId, `/${kind}s/${code}`)} copyKey={`${draftId}.${code}`} isKept={said === "kept"}>
          <IssuesWithout issues={work.issues} under={at} />
          {name ? <FateField fields={fields} field={`${at}.is`} fate="retired" label="In the next edition it" /> : <input type="hidden" name={`${at}.is`} value="added" />}
          {children}
        </DraftForm>
      </section>
      {kind === "cause" ? <p className="small soft">What shows a cause is typed with the findings.</p> : null}
    </DeskShell>
  );
}
