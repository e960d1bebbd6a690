import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadEditionInForce } from "@/lib/data/editions";
import { findQueueRows } from "@/lib/data/queue";
import { findFiledReferences, type SearchedPlace, searchClaims } from "@/lib/data/search";
import { loadSettings } from "@/lib/data/settings";
import { nearReferences } from "@/lib/domain/claims/near-references";
import { may } from "@/lib/domain/claims/permissions";
import { LONGEST } from "@/lib/domain/intake/fields";
import { type QueueRow, queueRows } from "./load-queue";
import { type Refusal, refuse } from "./refusal";

export interface FoundClaim extends QueueRow {
  /** Where it was found, the best first, each place once. */
  hits: readonly { place: SearchedPlace; excerpt: string }[];
}

export interface SearchResult {
  ok: true;
  found: readonly FoundClaim[];
  /** There are more than are shown. */
  isCut: boolean;
  /** References of filed claims that differ in one sign, where the one typed cannot be right. */
  meant: readonly string[];
  searchesPeople: boolean;
  timeZone: string;
}

const MOST_SHOWN = 25;
const MOST_PLACES = 2;

/** Claims in which a number, a name or words were found, of every stage but drafts. By people only who may see the customer. */
export async function searchForClaims(actor: StaffActor, typed: string, now: Date = new Date()): Promise<SearchResult | Refusal> {
  const refused = await refuse(actor, "search claims");
  if (refused) return refused;
  const searchesPeople = may(actor.role, "see the customer");
  const wanted = typed.trim().slice(0, LONGEST.name);
  const near = nearReferences(wanted);
  const [hits, meant, edition, settings] = await Promise.all([
    wanted === "" ? [] : searchClaims(wanted, { withPeople: searchesPeople }),
    near.length > 0 ? findFiledReferences(near) : [],
    loadEditionInForce(),
    loadSettings(),
  ]);
  const byClaim = new Map<string, { place: SearchedPlace; excerpt: string }[]>();
  for (const { claimId, place, excerpt } of hits) {
    const places = byClaim.get(claimId) ?? [];
    if (places.length < MOST_PLACES && !places.some((known) => known.place === place)) places.push({ place, excerpt });
    byClaim.set(claimId, places);
  }
  const shown = [...byClaim.keys()].slice(0, MOST_SHOWN);
  const rows = await queueRows(await findQueueRows(shown), { actor, edition, settings, now });
  return {
    ok: true,
    found: rows.map((row) => ({ ...row, hits: byClaim.get(row.id) ?? [] })),
    isCut: byClaim.size > shown.length,
    meant,
    searchesPeople,
    timeZone: settings.timeZone,
  };
}
