import type { EditionChange, SubjectChange } from "@/lib/domain/diagnosis/edition-diff";
import { asTyped, scaleOf } from "@/lib/domain/diagnosis/edition-edits";
import type { EditionLeaf } from "@/lib/domain/diagnosis/edition-leaves";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { provenanceInWords } from "@/lib/domain/diagnosis/provenance-words";
import css from "./knowledge.module.css";
import { figure } from "./words";

/** What an edition states otherwise than another: old beside new, with the factor and what it can move. */
export function Changes({ diff, edition }: { diff: readonly SubjectChange[]; edition: Edition }) {
  const nameOf = (code: string) => edition.causes.find((cause) => cause.code === code)?.name ?? code;
  if (diff.length === 0) return <p>Nothing differs.</p>;
  return (
    <table className={css.list}>
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">Before</th>
          <th scope="col">Now</th>
          <th scope="col" className="num">
            Times
          </th>
        </tr>
      </thead>
      {diff.map((subject) => (
        <tbody key={subject.subject?.code ?? "whole"}>
          <tr>
            <th scope="rowgroup" colSpan={4}>
              {subject.subject ? <span className={css.code}>{subject.subject.code} </span> : null}
              {subject.name}
              {subject.fate === "changed" ? "" : `: ${subject.fate}`}
              {subject.affects.length > 0 ? <span className="small soft">{` moves ${subject.affects.map(nameOf).join("; ")}`}</span> : null}
            </th>
          </tr>
          {subject.changes.map((change) => (
            <Change key={change.field} change={change} />
          ))}
          <CameOrWent fields={subject.came} words="new" />
          <CameOrWent fields={subject.went} words="gone" />
        </tbody>
      ))}
    </table>
  );
}

function Change({ change: { field, before, after, factor } }: { change: EditionChange }) {
  return (
    <tr>
      <td>{fieldInWords(field)}</td>
      <td data-name="Before">
        <Leaf field={field} leaf={before} />
      </td>
      <td data-name="Now">
        <strong>
          <Leaf field={field} leaf={after} />
        </strong>
      </td>
      <td data-name="Times" className="num">
        {factor === null ? "" : `× ${figure(factor)}`}
      </td>
    </tr>
  );
}

function Leaf({ field, leaf: { value, provenance } }: { field: string; leaf: EditionLeaf }) {
  const unit = typeof value === "number" ? { 1000: " in 1,000", 100: " in 100", 1: "" }[scaleOf(field)] : "";
  return (
    <>
      {asTyped(field, value)}
      {unit} {provenance ? <span className={css.ground}>{provenanceInWords(provenance)}</span> : null}
    </>
  );
}

/** A list of fields can be long: links of a cause come and go with each observer's figure. */
function CameOrWent({ fields, words }: { fields: readonly string[]; words: string }) {
  const shown = [...new Set(fields.map((field) => fieldInWords(field).replace(/, (customer|technician|bench)$/, "")))];
  if (shown.length === 0) return null;
  return (
    <tr>
      <td colSpan={4}>
        {words}: {shown.join("; ")}
      </td>
    </tr>
  );
}

const WORDS: Readonly<Record<string, string>> = {
  base: "how often a fitted unit has it",
  plainName: "name for customers",
  background: "seen without any of its causes",
  oddsRatio: "odds ratio",
  originIsOpen: "may lie with the kit",
  runsEngine: "needs the engine running",
};

/** @example `findings.F12.links.C01.strength.customer.value`: "seen with C01, customer" */
export function fieldInWords(field: string): string {
  const names = field.split(".");
  const inside = names[0] === "causes" || names[0] === "findings" ? names.slice(2) : names;
  const [list, code, , ...rest] = inside;
  if (list === "links") return [`seen with ${code}`, ...rest.filter((name) => name !== "value" && name !== "cause")].join(", ");
  return inside
    .filter((name) => name !== "value")
    .map((name) => WORDS[name] ?? name.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`))
    .join(", ");
}
