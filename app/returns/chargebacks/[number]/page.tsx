import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { CHARGEBACK_STATE_NAMES, lineTotal, mayAct } from "@/lib/domain/claims/chargeback";
import { formatMoney, typedMoney } from "@/lib/domain/claims/money";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { type LoadedChargeback, loadChargeback } from "@/lib/operations/load-chargebacks";
import { dayIn } from "../../return-words";
import { answerHere, closeHere, dropHere, sendHere, takeOutHere } from "../actions";
import { knownProblem } from "../chargeback-words";
import styles from "../chargebacks.module.css";
import { AnswerForm } from "./answer-form";
import { SendForm } from "./send-form";

export const metadata: Metadata = { title: "Chargeback" };

export default async function ChargebackPage({ params, searchParams }: { params: Promise<{ number: string }>; searchParams: Promise<QueryParameters> }) {
  const [{ number }, query] = await Promise.all([params, searchParams]);
  const actor = await requireStaff(`/returns/chargebacks/${number}`);
  const loaded = /^[1-9]\d{0,8}$/.test(number) ? await loadChargeback(actor, Number(number)) : null;
  if (loaded && !loaded.ok && loaded.reason === "not-allowed") forbidden();
  if (!loaded?.ok) notFound();
  const { chargeback, timeZone } = loaded;
  const { totals, currency, supplier, state, lines } = chargeback;
  const problem = knownProblem(firstValues(query).problem);
  const money = (minor: number) => formatMoney(minor, currency);
  const batches = [...new Set(lines.flatMap(({ batch }) => batch ?? []))];
  const on = { number: chargeback.number, version: chargeback.version };
  return (
    <DeskShell actor={actor} here="Chargebacks">
      <p className="small">
        <Link href="/returns/chargebacks">All chargebacks</Link>
      </p>
      <h1>{heading(loaded)}</h1>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      <TitleBlock
        facts={[
          { name: "Chargeback", value: chargeback.number },
          { name: "Stands", value: CHARGEBACK_STATE_NAMES[state] },
          { name: "Begun", value: `${dayIn(timeZone, chargeback.madeAt)}, ${chargeback.madeBy.name}` },
          { name: "Sent", value: chargeback.sentAt ? dayIn(timeZone, chargeback.sentAt) : "not yet" },
          { name: "Answer due", value: chargeback.answerDueOn ? `${dayIn("UTC", chargeback.answerDueOn)}${chargeback.isOverdue ? ", overdue" : ""}` : "not sent" },
          { name: "To", value: supplier.email },
          ...(supplier.address ? [{ name: "Address", value: supplier.address }] : []),
        ]}
      />
      {chargeback.note ? <p className="note">{chargeback.note}</p> : null}
      <section className={`sheet ${styles.part}`}>
        <h2>{lines.length === 1 ? "One unit" : `${lines.length} units`}</h2>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls is reached by key. */}
        <section className="table-region" aria-label="Lines, to be scrolled" tabIndex={0}>
          <table>
            <thead>
              <tr>
                <th scope="col">Unit</th>
                <th scope="col">Cause</th>
                <th scope="col" className="num">
                  Remedy
                </th>
                <th scope="col" className="num">
                  Carriage
                </th>
                <th scope="col" className="num">
                  Bench
                </th>
                <th scope="col" className="num">
                  Asked
                </th>
                <th scope="col" className="num">
                  {state === "draft" ? "" : "Accepted"}
                </th>
              </tr>
            </thead>
            <tbody>
              {lines.map((line) => (
                <tr key={line.id}>
                  <th scope="row" className={styles.unit}>
                    {line.serial ?? "serial not known"}
                    <br />
                    <span className="small soft">
                      batch {line.batch ?? "not known"}
                      {line.verdict ? (
                        <>
                          <br />
                          <Link href={`/queue/${line.verdict.claimId}`}>claim {line.verdict.claim.reference}</Link>
                        </>
                      ) : null}
                    </span>
                    {line.verdict?.supersededAt ? <span className="error small">This verdict no longer stands</span> : null}
                  </th>
                  <td>{loaded.causeNames.get(line.cause) ?? line.cause}</td>
                  <td className="num">{money(line.remedyMinor)}</td>
                  <td className="num">{money(line.carriageMinor)}</td>
                  <td className="num">
                    {money(line.benchMinor)}
                    <br />
                    <span className="small soft">{line.benchMinutes} min</span>
                  </td>
                  <td className="num">{money(lineTotal(line))}</td>
                  <td className="num">
                    {state === "draft" ? (
                      <form action={takeOutHere}>
                        <input type="hidden" name="number" value={on.number} />
                        <input type="hidden" name="version" value={on.version} />
                        <input type="hidden" name="lineId" value={line.id} />
                        <button type="submit" className="link-button">
                          Take out<span className="visually-hidden"> {line.serial ?? "this line"}</span>
                        </button>
                      </form>
                    ) : line.acceptedMinor === null ? (
                      <span className="soft">no answer</span>
                    ) : (
                      money(line.acceptedMinor)
                    )}
                    {line.answers.length > 1 ? <span className="small soft"> before: {line.answers.slice(1).map(({ acceptedMinor }) => money(acceptedMinor)).join(", ")}</span> : null}
                    {line.answers[0]?.note ? <span className="small soft"> {line.answers[0].note}</span> : null}
                  </td>
                </tr>
              ))}
            </tbody>
            <tfoot>
              <tr className={styles.total}>
                <th scope="row" colSpan={2}>
                  Together
                </th>
                <td className="num">{money(totals.remedyMinor)}</td>
                <td className="num">{money(totals.carriageMinor)}</td>
                <td className="num">{money(totals.benchMinor)}</td>
                <td className="num">{money(totals.askedMinor)}</td>
                <td className="num">{state === "draft" ? "" : money(totals.acceptedMinor)}</td>
              </tr>
            </tfoot>
          </table>
        </section>
        <p className="small">
          The table as <a href={`/returns/chargebacks/${on.number}/file`}>CSV</a> or <a href={`/returns/chargebacks/${on.number}/file?format=xlsx`}>workbook</a>: serials, batches and what the bench found, nothing of a customer.
          {batches.length > 0 ? " The evidence as a PDF: " : ""}
          {batches.map((batch, index) => (
            <span key={batch}>
              {index > 0 ? ", " : ""}
              <Link href={`/reports/supplier?batch=${encodeURIComponent(batch)}`}>summary of batch {batch}</Link>
            </span>
          ))}
        </p>
      </section>
      {mayAct(state, "send") ? (
        <section className={`sheet ${styles.part}`}>
          <h2>Send it</h2>
          <SendForm action={sendHere} on={on} days={supplier.answerWithinDays} asked={money(totals.askedMinor)} supplier={supplier.name} />
          <form action={dropHere}>
            <input type="hidden" name="number" value={on.number} />
            <input type="hidden" name="version" value={on.version} />
            <button type="submit" className="link-button">
              Drop this draft; its verdicts can be charged another time
            </button>
          </form>
        </section>
      ) : null}
      {mayAct(state, "answer") ? (
        <section className={`sheet ${styles.part}`}>
          <h2>{totals.openMinor > 0 ? `What ${supplier.name} accepts` : "A later answer"}</h2>
          <AnswerForm
            action={answerHere.bind(null, currency)}
            on={on}
            lines={lines.map((line) => ({ id: line.id, name: `${line.serial ?? "serial not known"}, asked ${money(lineTotal(line))}`, accepted: line.acceptedMinor === null ? "" : typedMoney(line.acceptedMinor, currency) }))}
            hasOpen={lines.some(({ acceptedMinor }) => acceptedMinor === null)}
            currency={currency}
          />
        </section>
      ) : null}
      {mayAct(state, "close") ? (
        <form action={closeHere} className={styles.part}>
          <input type="hidden" name="number" value={on.number} />
          <input type="hidden" name="version" value={on.version} />
          <button type="submit" className="button plain">
            Close it: nothing more is expected
          </button>
        </form>
      ) : null}
    </DeskShell>
  );
}

function heading({ chargeback: { state, totals, currency, supplier } }: LoadedChargeback): string {
  const [asked, accepted] = [formatMoney(totals.askedMinor, currency), formatMoney(totals.acceptedMinor, currency)];
  switch (state) {
    case "draft":
      return `${asked} to be asked of ${supplier.name}`;
    case "sent":
      return totals.acceptedMinor > 0 ? `${supplier.name} has accepted ${accepted} of ${asked} so far` : `${asked} asked of ${supplier.name}`;
    default:
      return `${supplier.name} accepted ${accepted} of ${asked}`;
  }
}
