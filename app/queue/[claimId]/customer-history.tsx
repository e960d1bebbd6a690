import Link from "next/link";
import type { StaffActor } from "@/lib/access/actors";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { type CustomerHistory as CustomerHistoryLoaded, loadCustomerHistory } from "@/lib/operations/load-customer-history";
import type { inZone } from "../times";
import css from "./claim.module.css";
import { nameOf } from "./verdict-panel";

type Zone = ReturnType<typeof inZone>;

const SHOWN_AT_ONCE = 4;

/** What else this customer has complained of and ordered. */
export async function CustomerHistory({ actor, claimId, edition, zone }: { actor: StaffActor; claimId: string; edition: Edition; zone: Zone }) {
  const loaded = await loadCustomerHistory(actor, claimId);
  if (!loaded.ok) return null;
  const { claims, orders } = loaded;
  return (
    <section className="sheet" id="history">
      <h2>{claims.length === 0 ? "The first complaint of this customer" : claims.length === 1 ? "One other complaint of this customer" : `${claims.length} other complaints of this customer`}</h2>
      <Claims claims={claims.slice(0, SHOWN_AT_ONCE)} edition={edition} zone={zone} />
      {claims.length > SHOWN_AT_ONCE ? (
        <details>
          <summary>{claims.length - SHOWN_AT_ONCE} older</summary>
          <Claims claims={claims.slice(SHOWN_AT_ONCE)} edition={edition} zone={zone} />
        </details>
      ) : null}
      {orders.length === 0 ? <p className="small soft">No order is known by this e-mail address.</p> : null}
      <Orders orders={orders.slice(0, SHOWN_AT_ONCE)} zone={zone} />
      {orders.length > SHOWN_AT_ONCE ? (
        <details>
          <summary>{orders.length - SHOWN_AT_ONCE === 1 ? "One earlier order" : `${orders.length - SHOWN_AT_ONCE} earlier orders`}</summary>
          <Orders orders={orders.slice(SHOWN_AT_ONCE)} zone={zone} />
        </details>
      ) : null}
    </section>
  );
}

function Orders({ orders, zone }: { orders: CustomerHistoryLoaded["orders"]; zone: Zone }) {
  return orders.map(({ number, placedOn, sent }) => (
    <p key={number} className="small">
      <strong className="num">{number}</strong>, {zone.day(placedOn)}: {sent.map(({ kit, serial }) => (serial ? `${kit} (${serial})` : kit)).join("; ")}
    </p>
  ));
}

function sameInWords({ sameEmail, samePhone, sameOrder }: { sameEmail: boolean; samePhone: boolean; sameOrder: boolean }): string {
  return [sameEmail && "e-mail", samePhone && "telephone", sameOrder && "order"].filter(Boolean).join(", ");
}

function Claims({ claims, edition, zone }: { claims: CustomerHistoryLoaded["claims"]; edition: Edition; zone: Zone }) {
  return (
    <ul className={css.rows}>
      {claims.map(({ id, reference, stage, filedAt, kit, cause, isDecided, ...same }) => (
        <li key={id}>
          <Link className="letter" href={`/queue/${id}`}>
            {reference}
          </Link>
          <span>
            {[kit, filedAt && zone.time(filedAt)].filter(Boolean).join(", ")}
            <br />
            <span className="small soft">
              {STAGE_NAMES[stage]}
              {cause ? `; ${isDecided ? "verdict" : "ranked first"}: ${nameOf(cause, edition)}` : ""}; same {sameInWords(same)}
            </span>
          </span>
        </li>
      ))}
    </ul>
  );
}
