import Link from "next/link";
import { cellAddress, claimsAddress } from "@/app/reports/addresses";
import type { StaffActor } from "@/lib/access/actors";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { loadElsewhere } from "@/lib/operations/load-elsewhere";
import css from "./claim.module.css";
import { nameOf } from "./verdict-panel";

const SHOWN = 4;

/** The same kit on the same vehicle elsewhere: what other complaints were laid to. */
export async function Elsewhere({ actor, claimId, edition }: { actor: StaffActor; claimId: string; edition: Edition }) {
  const loaded = await loadElsewhere(actor, claimId);
  if (!loaded.ok || !loaded.elsewhere) return null;
  const { kit, vehicle, from, to, shipped, causes } = loaded.elsewhere;
  const decided = causes.reduce((sum, { claims }) => sum + claims, 0);
  const [first] = causes;
  const cell = { kit, vehicle, from, to };
  return (
    <section className="sheet" id="elsewhere">
      <h2>{first ? `Elsewhere, ${first.claims} of ${decided} were: ${nameOf(first.cause, edition)}` : "Nothing is decided yet about this kit on this vehicle"}</h2>
      <p className="small soft">
        Decided complaints about the same kit on the same vehicle; {shipped.toLocaleString("en")} {shipped === 1 ? "was" : "were"} shipped for it. What held elsewhere need not hold here.
      </p>
      <ul className={`small ${css.links}`}>
        {causes.slice(0, SHOWN).map(({ cause, claims }) => (
          <li key={cause}>
            {loaded.seesReports ? (
              <Link href={claimsAddress({ ...cell, cause })}>
                {claims} {nameOf(cause, edition)}
              </Link>
            ) : (
              `${claims} ${nameOf(cause, edition)}`
            )}
          </li>
        ))}
      </ul>
      {loaded.seesReports ? (
        <p className="small">
          <Link href={cellAddress(cell)}>This kit on this vehicle in the reports</Link>
        </p>
      ) : null}
    </section>
  );
}
