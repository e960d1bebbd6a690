import { KeyHint } from "../keys";
import css from "./search.module.css";

/** Search by anything, from every page of the queue. */
export function SearchForm({ typed = "", onlyNumbers = false }: { typed?: string; onlyNumbers?: boolean }) {
  return (
    <search className="no-print">
      <form action="/queue/search" className={css.form}>
        <label>
          <span>
            {onlyNumbers ? "Find a claim by reference, serial, order, return or parcel number" : "Find a claim by reference, serial, order, return or parcel number, name, e-mail, telephone, or words"} <KeyHint sign="/" />
          </span>
          <input name="q" type="search" defaultValue={typed} maxLength={100} data-key="/" />
        </label>
        <button type="submit" className="button tight plain">
          Find
        </button>
      </form>
    </search>
  );
}
