import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { CHARGEBACK_STATE_NAMES, lineTotal } from "@/lib/domain/claims/chargeback";
import { formatMoney } from "@/lib/domain/claims/money";
import { may } from "@/lib/domain/claims/permissions";
import { type Chargeable, type ChargebackOnSheet, type ChargebacksSheet, loadChargebacks, type SupplierWithVerdicts } from "@/lib/operations/load-chargebacks";
import { dayIn } from "../return-words";
import { beginHere } from "./actions";
import { BeginForm } from "./begin-form";
import styles from "./chargebacks.module.css";

export const metadata: Metadata = { title: "Chargebacks" };

/** Batches that stand open on the page. */
const SHOWN_AT_FIRST = 12;

type Batch = readonly [batch: string | null, verdicts: readonly Chargeable[]];

const countOf = ({ length }: readonly Chargeable[]) => verdictsInWords(length);
const verdictsInWords = (count: number) => (count === 1 ? "one verdict" : `${count} verdicts`);

/** Whether there are more verdicts than are shown. */
const isCut = ({ total, verdicts }: SupplierWithVerdicts) => verdicts.length < total;

const asked = (verdicts: readonly Chargeable[]) => verdicts.reduce((sum, verdict) => sum + lineTotal(verdict), 0);

export default async function ChargebacksPage() {
  const actor = await requireStaff("/returns/chargebacks");
  const loaded = await loadChargebacks(actor);
  if (!loaded.ok) forbidden();
  const { open, unmade, chargebacks, older, hasSuppliers, currency, timeZone } = loaded;
  const overdue = chargebacks.filter(({ isOverdue }) => isOverdue).length;
  return (
    <DeskShell actor={actor} here="Chargebacks">
      <h1>{hasSuppliers ? heading(loaded) : "No supplier is known to charge anything back to"}</h1>
      {overdue > 0 ? <p className="note">{overdue === 1 ? "One answer is overdue." : `${overdue} answers are overdue.`}</p> : null}
      {chargebacks.length > 0 ? (
        <section className={`sheet ${styles.part}`}>
          <h2>Chargebacks so far</h2>
          <Chargebacks chargebacks={chargebacks} timeZone={timeZone} />
          {older > 0 ? <p className="soft">{older === 1 ? "One that was closed earlier is" : `${older} that were closed earlier are`} not listed.</p> : null}
        </section>
      ) : null}
      <Unmade unmade={unmade} mayCorrect={may(actor.role, "change the catalogue")} />
      {open.map((supplier) => (
        <section key={supplier.id} className={`sheet ${styles.part}`}>
          <h2>
            {supplier.name}: {isCut(supplier) ? "at least " : ""}
            {formatMoney(asked(supplier.verdicts), currency)} not yet charged
          </h2>
          {isCut(supplier) ? (
            <p className="soft">
              The {supplier.verdicts.length} oldest of {supplier.total} verdicts. Of a batch that is ticked all are charged.
            </p>
          ) : null}
          <BeginForm action={beginHere.bind(null, supplier.id)}>
            <Batches batches={batchesOf(supplier.verdicts)} currency={currency} />
          </BeginForm>
        </section>
      ))}
    </DeskShell>
  );
}

/** What can be charged to nobody until the catalogue says who makes it. */
function Unmade({ unmade, mayCorrect }: { unmade: ChargebacksSheet["unmade"]; mayCorrect: boolean }) {
  if (unmade.length === 0) return null;
  return (
    <section className={`sheet ${styles.part}`}>
      <h2>Not said who makes it</h2>
      <p>{mayCorrect ? "Say so in the catalogue, and these can be charged back:" : "An administrator says so in the catalogue; then these can be charged back:"}</p>
      <ul>
        {unmade.map(({ kind, id, code, verdicts }) => (
          <li key={id}>
            {kind === "kits" ? "the parts of kit " : "turbo model "}
            {mayCorrect ? <Link href={`/catalogue/${kind}/${id}`}>{code}</Link> : code}, {verdictsInWords(verdicts)}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The batches that cost most, the others folded away. */
function Batches({ batches, currency }: { batches: readonly Batch[]; currency: string }) {
  const rest = batches.slice(SHOWN_AT_FIRST);
  const list = (some: readonly Batch[]) => (
    <ul className={styles.batches}>
      {some.map(([batch, verdicts]) => (
        <li key={batch ?? ""} className={styles.batch}>
          {batch ? (
            <label className={styles.tick}>
              <input type="checkbox" name="batch" value={batch} />
              <span>
                Batch <span className="num">{batch}</span>: {countOf(verdicts)}, <span className="num">{formatMoney(asked(verdicts), currency)}</span>
              </span>
            </label>
          ) : (
            <p>
              Batch not known: {countOf(verdicts)}, <span className="num">{formatMoney(asked(verdicts), currency)}</span>
            </p>
          )}
          <details open={!batch}>
            <summary className="small">
              One by one<span className="visually-hidden"> of {batch ? `batch ${batch}` : "no known batch"}</span>
            </summary>
            <Verdicts verdicts={verdicts} currency={currency} />
          </details>
        </li>
      ))}
    </ul>
  );
  return (
    <>
      {list(batches.slice(0, SHOWN_AT_FIRST))}
      {rest.length > 0 ? (
        <details className={styles.rest}>
          <summary>
            {rest.length === 1 ? "One more batch" : `${rest.length} more batches`}, <span className="num">{formatMoney(rest.reduce((sum, [, verdicts]) => sum + asked(verdicts), 0), currency)}</span>
          </summary>
          {list(rest)}
        </details>
      ) : null}
    </>
  );
}

function Verdicts({ verdicts, currency }: { verdicts: readonly Chargeable[]; currency: string }) {
  return (
    <ul className={styles.verdicts}>
      {verdicts.map((verdict) => (
        <li key={verdict.verdictId}>
          <label className={styles.tick}>
            <input type="checkbox" name="verdict" value={verdict.verdictId} />
            <span>
              <span className="num">{verdict.serial ?? "serial not known"}</span>, {verdict.causeName}, <span className="num">{formatMoney(lineTotal(verdict), currency)}</span>
            </span>
          </label>
          <Link href={`/queue/${verdict.claimId}`} className={`small ${styles.claim}`}>
            claim {verdict.reference}
          </Link>
        </li>
      ))}
    </ul>
  );
}

function Chargebacks({ chargebacks, timeZone }: { chargebacks: readonly ChargebackOnSheet[]; timeZone: string }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls is reached by key.
    <section className="table-region" aria-label="Chargebacks, to be scrolled" tabIndex={0}>
      <table>
        <thead>
          <tr>
            <th scope="col">Chargeback</th>
            <th scope="col">Supplier</th>
            <th scope="col">Stands</th>
            <th scope="col" className="num">
              Asked
            </th>
            <th scope="col" className="num">
              Accepted
            </th>
            <th scope="col" className="num">
              Open
            </th>
            <th scope="col">Answer due</th>
          </tr>
        </thead>
        <tbody>
          {chargebacks.map(({ number, supplier, state, totals, currency, answerDueOn, isOverdue, madeAt }) => (
            <tr key={number}>
              <th scope="row">
                <Link href={`/returns/chargebacks/${number}`}>Chargeback {number}</Link>
                <br />
                <span className="small soft">{dayIn(timeZone, madeAt)}</span>
              </th>
              <td>{supplier.name}</td>
              <td>{CHARGEBACK_STATE_NAMES[state]}</td>
              <td className="num">{formatMoney(totals.askedMinor, currency)}</td>
              <td className="num">{formatMoney(totals.acceptedMinor, currency)}</td>
              <td className="num">{formatMoney(totals.openMinor, currency)}</td>
              <td>
                {answerDueOn ? dayIn("UTC", answerDueOn) : "not sent"}
                {isOverdue ? <strong> overdue</strong> : null}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function heading({ open, unmade, currency }: ChargebacksSheet): string {
  const total = open.reduce((sum, { verdicts }) => sum + asked(verdicts), 0);
  if (open.length === 0 && unmade.length > 0) return "Nobody has said who makes what was found defective";
  if (open.length === 0) return "Every settled claim about a confirmed defect is charged back";
  return `${open.some(isCut) ? "At least " : ""}${formatMoney(total, currency)} could be charged back to ${open.length === 1 ? "one supplier" : `${open.length} suppliers`}`;
}

/** By batch, the largest sum first; without a batch last. */
function batchesOf(verdicts: readonly Chargeable[]): Batch[] {
  const batches = new Map<string | null, Chargeable[]>();
  for (const verdict of verdicts) batches.set(verdict.batch, [...(batches.get(verdict.batch) ?? []), verdict]);
  return [...batches].sort(([a, one], [b, other]) => Number(a === null) - Number(b === null) || asked(other) - asked(one));
}
