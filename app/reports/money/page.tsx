import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { describedBy, Field } from "@/app/_components/field";
import { requireStaff } from "@/lib/access/staff";
import { BOOKING_NAMES } from "@/lib/domain/claims/bookings";
import { formatMoney } from "@/lib/domain/claims/money";
import { periodInWords } from "@/lib/domain/reporting/month";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readFilter } from "@/lib/inputs/report-filter";
import { bookingsFilterSchema } from "@/lib/inputs/settlement";
import { loadBookings } from "@/lib/operations/load-bookings";
import { address } from "../addresses";
import { usualPeriod } from "../read-address";
import { RefusedFilter } from "../refused-filter";
import styles from "../reports.module.css";
import css from "./money.module.css";

export const metadata: Metadata = { title: "Money" };

/** Who bears what, and what is held; a column that holds nothing is left out. */
const SHARES = [
  { of: "sellerMinor", name: "We bear" },
  { of: "customerMinor", name: "Customers bear" },
  { of: "supplierMinor", name: "Suppliers bear" },
  { of: "heldMinor", name: "Held" },
] as const;

/** What was booked in a period, by kind, with who bears it. */
export default async function MoneyPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(address("/reports/money", firstValues(query)));
  const read = readFilter(bookingsFilterSchema, query, usualPeriod());
  if (!read.ok) return <RefusedFilter errors={read.errors} />;
  const { filter } = read;
  const loaded = await loadBookings(actor, filter);
  if (!loaded.ok) forbidden();
  const { lines, totals } = loaded;
  const shares = SHARES.filter(({ of }) => of === "sellerMinor" || lines.some((line) => line[of] !== 0));
  const ours = totals.map(({ sellerMinor, currency }) => formatMoney(sellerMinor, currency)).join(" and ");
  return (
    <>
      <p className="small letter soft">Money</p>
      <h1>{totals.length > 0 ? `We bear ${ours} of what was booked ${periodInWords(filter)}` : `Nothing was booked ${periodInWords(filter)}`}</h1>
      <form className={`${styles.filter} ${css.period} no-print`} action="/reports/money">
        <Field id="from" label="Booked from">
          <input {...describedBy("from", {})} name="from" type="month" placeholder="2026-01" required defaultValue={filter.from} />
        </Field>
        <Field id="to" label="to the end of">
          <input {...describedBy("to", {})} name="to" type="month" placeholder="2026-12" required defaultValue={filter.to} />
        </Field>
        <button type="submit" className="button tight">
          Show
        </button>
      </form>
      <p>By the day of booking; reversals are taken off. A deposit for an old part costs nobody anything while it is held; kept, it is ours.</p>
      {lines.length > 0 ? (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls is reached by key.
        <section className="table-region" aria-label="Bookings by kind" tabIndex={0}>
          <table className={css.kinds}>
            <thead>
              <tr>
                <th scope="col">For</th>
                {["Bookings", ...shares.map(({ name }) => name)].map((name) => (
                  <th key={name} scope="col" className="num">
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {lines.map((line) => (
                <tr key={line.kind + line.currency}>
                  <th scope="row">{BOOKING_NAMES[line.kind]}</th>
                  <td className="num">{line.bookings}</td>
                  {shares.map(({ of }) => (
                    <td key={of} className="num">
                      {line[of] === 0 ? "" : formatMoney(line[of], line.currency)}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
            <tfoot>
              {totals.map((total) => (
                <tr key={total.currency}>
                  <th scope="row">Together, {total.currency}</th>
                  <td className="num">{lines.reduce((count, { currency, bookings }) => count + (currency === total.currency ? bookings : 0), 0)}</td>
                  {shares.map(({ of }) => (
                    <td key={of} className="num">
                      {formatMoney(total[of], total.currency)}
                    </td>
                  ))}
                </tr>
              ))}
            </tfoot>
          </table>
        </section>
      ) : null}
      <p className="acts no-print">
        <a className="button tight plain" href={address("/api/reports/money", { ...filter, table: "sums" })}>
          These sums as CSV
        </a>
        <a className="button tight plain" href={address("/api/reports/money", { ...filter, table: "sums", format: "xlsx" })}>
          as a workbook
        </a>
        <a className="button tight plain" href={address("/api/reports/money", { ...filter })}>
          Every booking as CSV
        </a>
        <a className="button tight plain" href={address("/api/reports/money", { ...filter, format: "xlsx" })}>
          as a workbook
        </a>
      </p>
    </>
  );
}
