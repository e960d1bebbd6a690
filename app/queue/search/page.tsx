import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { may } from "@/lib/domain/claims/permissions";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { firstValues } from "@/lib/inputs/query";
import { type FoundClaim, type SearchResult, searchForClaims } from "@/lib/operations/search-claims";
import { KeyHint, Keys } from "../keys";
import { Excerpt } from "./excerpt";
import css from "./search.module.css";
import { SearchForm } from "./search-form";

export const metadata: Metadata = { title: "Find a claim" };

const PLACES: Readonly<Record<FoundClaim["hits"][number]["place"], string>> = {
  reference: "Reference",
  serial: "Serial",
  order: "Order",
  return: "Return",
  parcel: "Parcel",
  name: "Name",
  telephone: "Telephone",
  complaint: "In the complaint",
  message: "In a message",
  note: "In a note of the desk",
};

export default async function SearchPage({ searchParams }: { searchParams: Promise<Record<string, string | string[] | undefined>> }) {
  const { q = "" } = firstValues(await searchParams);
  const actor = await requireStaff(`/queue/search?${new URLSearchParams({ q })}`);
  const result = await searchForClaims(actor, q);
  if (!result.ok) forbidden();
  const mayQueue = may(actor.role, "see the queue");
  return (
    <DeskShell actor={actor} here="Queue">
      <div className={`${css.top} small letter no-print`}>
        {mayQueue ? (
          <Link href="/queue" data-key="q">
            Queue <KeyHint sign="Q" />
          </Link>
        ) : null}
        <Keys />
      </div>
      <h1>{heading(q, result)}</h1>
      <SearchForm typed={q} onlyNumbers={!result.searchesPeople} />
      {result.meant.length > 0 ? (
        <p className="note">
          <strong>{q} cannot be a reference: a sign is wrong.</strong> One sign away there {result.meant.length === 1 ? "is" : "are"}{" "}
          {result.meant.map((reference, index) => (
            <span key={reference}>
              {index > 0 ? ", " : ""}
              <Link href={`/queue/search?${new URLSearchParams({ q: reference })}`}>{reference}</Link>
            </span>
          ))}
        </p>
      ) : null}
      {result.found.length > 0 ? (
        <ul className={css.found}>
          {result.found.map((claim) => (
            <Found key={claim.id} claim={claim} />
          ))}
        </ul>
      ) : null}
      {result.isCut ? <p className="small soft">The best 25 are shown. Write more of it to narrow them down.</p> : null}
    </DeskShell>
  );
}

function heading(typed: string, { found, isCut }: SearchResult): string {
  if (typed === "") return "Find a claim";
  const count = `${found.length}${isCut ? " and more" : ""}`;
  return found.length === 0 ? `Nothing found for \u201c${typed}\u201d` : `${count === "1" ? "1 claim" : `${count} claims`} found for \u201c${typed}\u201d`;
}

function Found({ claim }: { claim: FoundClaim }) {
  return (
    <li data-row="">
      <div>
        <Link href={`/queue/${claim.id}`}>{claim.reference}</Link>
        <p className="small soft">
          {STAGE_NAMES[claim.stage]}
          {claim.assignedTo ? `, in hand of ${claim.assignedTo.isMe ? "me" : claim.assignedTo.name}` : ""}
        </p>
      </div>
      <div>
        {claim.hits.map(({ place, excerpt }) => (
          <p key={place}>
            <span className="small soft">{PLACES[place]}:</span> <Excerpt words={excerpt} language={place === "complaint" || place === "message" ? claim.language : undefined} />
          </p>
        ))}
      </div>
      <p className="small">
        {claim.kit ?? "kit not known"}
        <br />
        <span className="soft">{claim.vehicle ?? "vehicle not known"}</span>
      </p>
    </li>
  );
}
