import { cookies } from "next/headers";
import Link from "next/link";
import type { StaffActor } from "@/lib/access/actors";
import { may } from "@/lib/domain/claims/permissions";
import { claimAddress, queryOf, queueAddress, type QueueFilter, readQueueFilter } from "@/lib/inputs/queue-filter";
import type { QueryParameters } from "@/lib/inputs/query";
import { loadPlaceInQueue } from "@/lib/operations/load-place-in-queue";
import { KeyHint, Keys } from "../keys";
import { VIEW_COOKIE } from "../view-cookie";
import css from "./queue-way.module.css";
import { WhoElse } from "./who-else";

/**
 * The way on from a claim: where it stands in the view of the queue that it was opened from, and the one before and
 * after it there. The view is the one in the address, else the one this browser looked at last.
 */
export async function QueueWay({ actor, claimId, query }: { actor: StaffActor; claimId: string; query: QueryParameters }) {
  const view = await viewOf(query);
  const place = may(actor.role, "see the queue") ? await loadPlaceInQueue(actor, claimId, view) : null;
  return (
    <div className="no-print">
      <div className={`${css.way} small letter`}>
        {place?.ok ? (
          <span>
            <Link href={queueAddress(view)} data-key="q">
              Queue <KeyHint sign="Q" />
            </Link>
            {place.place > 0 ? ` / ${place.place} of ${place.of}` : ""}
          </span>
        ) : (
          <span>Claim</span>
        )}
        <div className={css.acts}>
          {may(actor.role, "search claims") ? (
            <Link href="/queue/search" data-key="/">
              Search <KeyHint sign="/" />
            </Link>
          ) : null}
          {place?.ok && place.before ? (
            <Link href={claimAddress(place.before, view)} data-key="p" prefetch={false}>
              Claim before <KeyHint sign="P" />
            </Link>
          ) : null}
          {place?.ok && place.next ? (
            <Link href={claimAddress(place.next, view)} data-key="n">
              Next claim <KeyHint sign="N" />
            </Link>
          ) : null}
          <Keys />
        </div>
      </div>
      <WhoElse actor={actor} claimId={claimId} />
    </div>
  );
}

async function viewOf(query: QueryParameters): Promise<QueueFilter> {
  const named = readQueueFilter(query);
  if (queryOf(named)) return named;
  const kept = (await cookies()).get(VIEW_COOKIE)?.value ?? "";
  return readQueueFilter(Object.fromEntries(new URLSearchParams(decodeURIComponent(kept))));
}
