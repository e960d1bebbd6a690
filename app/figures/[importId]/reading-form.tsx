"use client";

import { useActionState, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { UNTOUCHED } from "@/app/_desk/form-state";
import { IMPORT_FIELDS } from "@/lib/domain/imports/fields";
import type { ChangedRows, ImportKind } from "@/lib/domain/imports/kinds";
import { columnLetter } from "@/lib/domain/imports/match-columns";
import type { Delimiter, Encoding, ImportReading } from "@/lib/domain/imports/reading";
import type { DateOrder } from "@/lib/domain/imports/read-value";
import { readFileHere } from "../actions";
import styles from "../figures.module.css";

const DELIMITER_NAMES: Readonly<Record<Delimiter, string>> = { ",": "Comma", ";": "Semicolon", "\t": "Tab" };
const DATE_ORDER_NAMES: Readonly<Record<DateOrder, string>> = { "day-month-year": "Day first: 31.12.2026, 31/12/26", "month-day-year": "Month first: 12/31/2026" };
const CHANGED_NAMES: Readonly<Record<ChangedRows, string>> = { refuse: "Refuse the file and tell me", update: "Take over what the file says; an empty cell changes nothing" };
const ENCODING_NAMES: Readonly<Record<Encoding, string>> = { "utf-8": "UTF-8", "utf-16le": "UTF-16", "utf-16be": "UTF-16", "windows-1252": "Windows-1252" };

/** Which column tells what, and how it is written: as guessed, to correct. */
export function ReadingForm({ importId, kind, reading, headings }: { importId: string; kind: ImportKind; reading: ImportReading; headings: readonly string[] }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(readFileHere, UNTOUCHED);
  const errors = useMemo(() => Object.entries(messages).map(([field, message]) => ({ field, message: `${IMPORT_FIELDS[kind].find(({ key }) => `column-${key}` === field)?.name ?? field}: ${message}` })), [messages, kind]);
  const choices = <Choice extends string>(name: string, legend: string, names: Readonly<Record<Choice, string>>, chosen: Choice) => (
    <fieldset>
      <legend>{legend}</legend>
      {(Object.keys(names) as Choice[]).map((choice) => (
        <label key={choice}>
          <input type="radio" name={name} value={choice} defaultChecked={(values[name] ?? chosen) === choice} key={`${values[name]}`} /> {names[choice]}
        </label>
      ))}
    </fieldset>
  );
  return (
    <form action={send}>
      <Problem sentence={problem} />
      <ErrorSummary errors={errors} />
      <input type="hidden" name="file" value={importId} />
      <input type="hidden" name="kind" value={kind} />
      <div className={styles.matching}>
        {IMPORT_FIELDS[kind].map(({ key, name, isRequired }) => {
          const id = `column-${key}`;
          const chosen = values[id] ?? String(reading.columns[key] ?? "");
          return (
            <Field key={key} id={id} label={isRequired ? name : `${name} (if there is one)`} error={messages[id]}>
              <select key={chosen} {...describedBy(id, { error: messages[id] })} name={id} defaultValue={chosen}>
                <option value="">{isRequired ? "Choose a column" : "Not in the file"}</option>
                {headings.map((heading, column) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: columns have no other name, and their order stays.
                  <option key={column} value={column}>
                    {columnLetter(column)}: {heading || "without a heading"}
                  </option>
                ))}
              </select>
            </Field>
          );
        })}
      </div>
      <div className={styles.reading}>
        {choices("dateOrder", "Dates that are not written year first", DATE_ORDER_NAMES, reading.dateOrder)}
        {choices("delimiter", "Columns are parted by", DELIMITER_NAMES, reading.delimiter)}
        {choices("changed", "Rows that are there already with other values", CHANGED_NAMES, reading.changed)}
      </div>
      <p className="small soft">Encoding: {ENCODING_NAMES[reading.encoding]}, recognised. Numbers may have a decimal point or a decimal comma.</p>
      <div className="acts">
        <button type="submit" name="intent" value="start" className="button tight" aria-disabled={isSending}>
          Bring it in
        </button>
        <button type="submit" name="intent" value="look" className="button tight plain" aria-disabled={isSending}>
          Look at the first rows again
        </button>
      </div>
    </form>
  );
}
