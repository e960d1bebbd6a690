import { randomUUID } from "node:crypto";
import { dayIn } from "@/app/returns/return-words";
import type { StaffActor } from "@/lib/access/actors";
import { BOOKING_NAMES, type BookingKind, COST_KINDS } from "@/lib/domain/claims/bookings";
import { formatMoney, typedMoney } from "@/lib/domain/claims/money";
import { REMEDY_NAMES } from "@/lib/domain/claims/remedies";
import { loadSettlements, type SettlementsOfClaim } from "@/lib/operations/load-settlements";
import { bookSettlementHere, endDepositHere, reverseSettlementHere, settleHere } from "./settlement-actions";
import { BookForm, DepositForm, ReverseForm, SettleForm } from "./settlement-forms";
import css from "./settlement.module.css";

/** Who bears what, in the order of the columns. */
const BEARERS = [
  ["sellerMinor", "We bear"],
  ["customerMinor", "Customer"],
  ["supplierMinor", "Supplier"],
] as const;

/** The money of a claim so far: what was promised, every booking with who bears it, and the next booking for whoever may make one. */
export async function SettlementSection({ actor, claimId }: { actor: StaffActor; claimId: string }) {
  const money = await loadSettlements(actor, claimId);
  if (!money.ok) return null;
  const { booked, stage, promised, deposit, mayBook } = money;
  if (booked.length === 0 && !mayBook) return null;
  const open = promised.filter(({ isKept }) => !isKept);
  return (
    <section className="sheet stack" aria-labelledby="settlement-heading" id="settlement">
      <h2 id="settlement-heading">{headingOf(money)}</h2>
      {promised.length > 0 && stage === "decided" ? <Promised money={money} /> : null}
      {open.length > 0 && stage === "settled" ? <p className="error">Settled, yet not booked any more: {open.map(({ kind }) => BOOKING_NAMES[kind]).join(", ")}.</p> : null}
      {booked.length > 0 ? <Ledger money={money} claimId={claimId} /> : null}
      {mayBook ? (
        <div className="no-print">
          {deposit ? <DepositForm action={endDepositHere.bind(null, claimId)} bookingKey={randomUUID()} depositId={deposit.id} amount={formatMoney(deposit.amountMinor, deposit.currency)} /> : null}
          <NextBooking money={money} claimId={claimId} />
        </div>
      ) : null}
    </section>
  );
}

function headingOf({ totals, booked, stage, promised }: SettlementsOfClaim): string {
  if (booked.length === 0) return stage === "settled" ? "Settled without money" : promised.length === 0 ? "Nothing was promised that costs anything" : "Nothing is booked yet";
  const ours = totals.map(({ sellerMinor, currency }) => formatMoney(sellerMinor, currency)).join(" and ");
  return `Money so far: we bear ${ours}`;
}

/** Each thing promised beside what of it is booked. */
function Promised({ money: { promised } }: { money: SettlementsOfClaim }) {
  return (
    <ul className={css.promised}>
      {promised.map(({ kind, promisedMinor, currency, bookedMinor, isKept }) => {
        const sum = (minor: number) => (currency ? formatMoney(minor, currency) : "");
        const promise = `${BOOKING_NAMES[kind]}${promisedMinor === null ? "" : ` ${sum(promisedMinor)}`}`;
        const isHeld = kind === "core_held" && bookedMinor > 0 && !isKept;
        return (
          <li key={kind}>
            <strong>{isKept ? "Booked" : isHeld ? "Held" : "Promised"}:</strong> {promise}
            {isKept ? "" : isHeld ? ", neither given back nor kept yet" : bookedMinor > 0 ? `, ${sum(bookedMinor)} booked` : ", not booked yet"}
          </li>
        );
      })}
    </ul>
  );
}

function Ledger({ money: { booked, totals, timeZone, mayBook }, claimId }: { money: SettlementsOfClaim; claimId: string }) {
  const bearers = BEARERS.filter(([share]) => share === "sellerMinor" || booked.some((line) => line[share] !== 0));
  const isShared = bearers.length > 1;
  const hasHeld = booked.some(({ heldMinor }) => heldMinor !== 0);
  const sum = (minor: number, currency: string) => (minor === 0 ? "" : formatMoney(minor, currency));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways on a narrow screen, by keyboard too.
    <section className="table-region" aria-label="Bookings" tabIndex={0}>
      <table className={css.ledger}>
        <thead>
          <tr>
            <th scope="col">For</th>
            {isShared ? (
              <th scope="col" className="num">
                In all
              </th>
            ) : null}
            {bearers.map(([share, name]) => (
              <th key={share} scope="col" className="num">
                {name}
              </th>
            ))}
            {hasHeld ? (
              <th scope="col" className="num">
                Held
              </th>
            ) : null}
          </tr>
        </thead>
        <tbody>
          {booked.map((line) => (
            <tr key={line.id}>
              <td>
                {line.reversesId ? `reversal: ${BOOKING_NAMES[line.kind]}` : BOOKING_NAMES[line.kind]}
                <span className="small soft">
                  {" "}
                  {dayIn(timeZone, line.bookedAt)}, {line.bookedBy.name}
                  {line.note ? `: ${line.note}` : ""}
                </span>
                {mayBook && line.stands ? (
                  <ReverseForm action={reverseSettlementHere.bind(null, claimId)} bookingKey={randomUUID()} settlementId={line.id} what={`${BOOKING_NAMES[line.kind]} ${formatMoney(line.amountMinor, line.currency)}`} />
                ) : null}
              </td>
              {isShared ? <td className="num">{sum(line.sellerMinor + line.customerMinor + line.supplierMinor, line.currency)}</td> : null}
              {bearers.map(([share]) => (
                <td key={share} className="num">
                  {sum(line[share], line.currency)}
                </td>
              ))}
              {hasHeld ? <td className="num">{sum(line.heldMinor, line.currency)}</td> : null}
            </tr>
          ))}
        </tbody>
        <tfoot>
          {totals.map((total) => (
            <tr key={total.currency}>
              <th scope="row">Together</th>
              {isShared ? <td className="num">{formatMoney(total.allMinor, total.currency)}</td> : null}
              {bearers.map(([share]) => (
                <td key={share} className="num">
                  {formatMoney(total[share], total.currency)}
                </td>
              ))}
              {hasHeld ? <td className="num">{formatMoney(total.heldMinor, total.currency)}</td> : null}
            </tr>
          ))}
        </tfoot>
      </table>
    </section>
  );
}

/** The booking that keeps the next promise, filled in; or settling, where nothing is open; or something more, folded away. */
function NextBooking({ money, claimId }: { money: SettlementsOfClaim; claimId: string }) {
  const { promised, stage, version, currency, verdict, booked } = money;
  const next = promised.find(({ kind, isKept, bookedMinor }) => !isKept && !(kind === "core_held" && bookedMinor > 0));
  const isFree = (kind: BookingKind) => !booked.some((line) => line.kind === kind && line.stands);
  const kinds = [...COST_KINDS, "core_held" as const].filter(isFree);
  if (kinds.length === 0) return null;
  const form = (
    <BookForm
      action={bookSettlementHere.bind(null, claimId)}
      version={version}
      bookingKey={randomUUID()}
      kinds={kinds}
      kind={next?.kind ?? kinds[0] ?? "goodwill"}
      amount={next?.promisedMinor && next.currency === currency ? typedMoney(next.promisedMinor, currency) : ""}
      sellerPercent={next && next.kind !== "core_held" && next.promisedMinor !== null ? (verdict?.sellerPercent ?? 100) : 100}
      currency={currency}
    />
  );
  if (next) return form;
  return (
    <>
      {stage === "decided" && promised.every(({ isKept }) => isKept) ? <SettleForm action={settleHere.bind(null, claimId)} version={version} label={promised.length === 0 && verdict ? `Settle it: ${REMEDY_NAMES[verdict.remedy]} costs nothing more` : "Settle it"} /> : null}
      <details>
        <summary>Book something more</summary>
        {form}
      </details>
    </>
  );
}
