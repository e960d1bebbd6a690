import { dayIn } from "@/app/returns/return-words";
import type { StaffActor } from "@/lib/access/actors";
import { formatMoney } from "@/lib/domain/claims/money";
import { REMEDY_NAMES } from "@/lib/domain/claims/remedies";
import { loadSettlements } from "@/lib/operations/load-settlements";
import { bookSettlementHere, reverseSettlementHere } from "./settlement-actions";
import { BookForm, ReverseForm } from "./settlement-forms";

/** What the claim has cost, line by line with its total, and the next booking for whoever may make one. */
export async function SettlementSection({ actor, claimId }: { actor: StaffActor; claimId: string }) {
  const loaded = await loadSettlements(actor, claimId);
  if (!loaded.ok) return null;
  const { booked, totals, isNothingPaid, stage, remedy, currency, mayBook, mayReverse, timeZone, version } = loaded;
  if (booked.length === 0 && !mayBook) return null;
  const inAll = totals.map((total) => formatMoney(total.amountMinor, total.currency)).join(" and ");
  const form = remedy && <BookForm action={bookSettlementHere.bind(null, claimId)} version={version} remedy={remedy} currency={currency} settles={stage === "decided"} />;
  return (
    <section className="sheet stack" aria-labelledby="settlement-heading">
      <h2 id="settlement-heading">{isNothingPaid ? `Nothing is paid now${mayBook ? ": book it again" : ""}` : booked.length > 0 ? `Booked so far: ${inAll}` : stage === "settled" ? "Settled without money" : "Nothing is booked yet"}</h2>
      {booked.length > 0 ? (
        <div className="table-region">
          <table>
            <thead>
              <tr>
                <th scope="col">For</th>
                <th scope="col">Booked</th>
                <th scope="col" className="num">
                  Amount
                </th>
              </tr>
            </thead>
            <tbody>
              {booked.map((line) => (
                <tr key={line.id}>
                  <td>
                    {line.reversesId ? `reversal of ${REMEDY_NAMES[line.remedy]}` : REMEDY_NAMES[line.remedy]}
                    {line.note ? <span className="small soft"> {line.note}</span> : null}
                    {mayReverse && !line.reversesId && !line.reversedBy ? (
                      <ReverseForm action={reverseSettlementHere.bind(null, claimId)} settlementId={line.id} what={`${REMEDY_NAMES[line.remedy]} ${formatMoney(line.amountMinor, line.currency)}`} />
                    ) : null}
                  </td>
                  <td className="small">
                    {dayIn(timeZone, line.bookedAt)}, {line.bookedBy.name}
                  </td>
                  <td className="num">{formatMoney(line.amountMinor, line.currency)}</td>
                </tr>
              ))}
            </tbody>
            <tfoot>
              {totals.map((total) => (
                <tr key={total.currency}>
                  <th scope="row" colSpan={2}>
                    Total
                  </th>
                  <td className="num">{formatMoney(total.amountMinor, total.currency)}</td>
                </tr>
              ))}
            </tfoot>
          </table>
        </div>
      ) : null}
      {isNothingPaid && remedy ? <p className="error">The claim is settled by {REMEDY_NAMES[remedy]}, yet every booking of it is reversed.</p> : null}
      {mayBook && (stage === "decided" || isNothingPaid) ? form : null}
      {mayBook && stage === "settled" && !isNothingPaid ? (
        <details>
          <summary>Book something more</summary>
          {form}
        </details>
      ) : null}
    </section>
  );
}
