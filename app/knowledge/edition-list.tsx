import Link from "next/link";
import type { EditionListed } from "@/lib/operations/load-knowledge";
import css from "./knowledge.module.css";
import { ORIGIN_NAMES, STATE_NAMES } from "./words";

/** Every edition with what became of it, the newest first. */
export function EditionList({ editions, time }: { editions: readonly EditionListed[]; time: (at: Date) => string }) {
  return (
    <table className={css.list}>
      <thead>
        <tr>
          <th scope="col">Edition</th>
          <th scope="col">State</th>
          <th scope="col">Where it comes from</th>
          <th scope="col">Why</th>
        </tr>
      </thead>
      <tbody>
        {editions.map(({ number, name, state, origin, basisNumber, proposedBy, createdAt, promotedAt, discardedAt, why }) => (
          <tr key={number}>
            <th scope="row">
              <Link href={`/knowledge/${number}`}>
                {number}. {name}
              </Link>
            </th>
            <td data-name="State">
              {state === "in force" ? <strong>in force</strong> : STATE_NAMES[state]}
              <span className="small soft">
                {promotedAt ? `, promoted ${time(promotedAt)}` : null}
                {discardedAt ? `, ${time(discardedAt)}` : null}
              </span>
            </td>
            <td data-name="Comes from">
              {ORIGIN_NAMES[origin]}
              {basisNumber === null ? null : `, from edition ${basisNumber}`}
              {origin === "shipped" ? null : <span className="small soft">{`, ${proposedBy?.name ?? "by the program"}, ${time(createdAt)}`}</span>}
            </td>
            <td data-name="Why">{why}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
