import "server-only";
import { QUEUE_STAGES } from "@/lib/domain/claims/stages";
import { HIT_END, HIT_START } from "@/lib/domain/claims/search-marks";
import { database } from "./client";
import { Prisma } from "./generated/client";

/** Where words or a number were found. */
export const SEARCHED_PLACES = ["reference", "serial", "order", "return", "parcel", "name", "telephone", "complaint", "message", "note"] as const;
export type SearchedPlace = (typeof SEARCHED_PLACES)[number];

export interface SearchHit {
  claimId: string;
  place: SearchedPlace;
  /** What stands there; of a text the part around the words, which are between `HIT_START` and `HIT_END`. */
  excerpt: string;
  score: number;
}

type Sql = Prisma.Sql;
const { sql } = Prisma;

/** A claim with more hits than this shows the best. */
const MOST_HITS = 300;

/** As the indexes have it. */
const NUMBERS = sql`plain_words(c.reference || ' ' || coalesce(c.serial, '') || ' ' || coalesce(c.other_serial, '') || ' ' || coalesce(c.order_number, ''))`;
const NAMES = sql`plain_words(coalesce(c.contact_name, '') || ' ' || coalesce(c.contact_email, ''))`;
const TELEPHONE = sql`regexp_replace(coalesce(c.contact_phone, ''), '\\D', '', 'g')`;

/** What stands for any sign in a pattern is meant as typed. */
const partOf = (typed: string) => sql`('%' || plain_words(${typed.replace(/[\\%_]/g, "\\$&")}::text) || '%')`;

/**
 * Filed claims in which something was found, best first: whole numbers before parts of them, names before words, and of
 * equals those that are still open. Words are
 * found by their beginning, without regard to case and accents, in any language.
 *
 * @param withPeople whether names, addresses, telephones and what was written are looked at
 */
export async function searchClaims(typed: string, { withPeople }: { withPeople: boolean }): Promise<SearchHit[]> {
  const searches = [...numberSearches(typed), ...(withPeople ? peopleSearches(typed) : [])];
  if (searches.length === 0) return [];
  return database().$queryRaw<SearchHit[]>`
    SELECT h.claim_id AS "claimId", h.place, h.excerpt, h.score FROM (${Prisma.join(searches, " UNION ALL ")}) AS h (claim_id, place, excerpt, score)
    JOIN claim AS c ON c.id = h.claim_id AND c.stage <> 'draft'
    ORDER BY h.score + (CASE WHEN c.stage = ANY(${[...QUEUE_STAGES]}::claim_stage[]) THEN 5 ELSE 0 END) DESC, c.filed_at DESC, h.claim_id LIMIT ${MOST_HITS}`;
}

function numberSearches(typed: string): Sql[] {
  const bare = typed.replace(/[^\p{L}\p{N}]/gu, "").toUpperCase();
  if (bare === "") return [];
  // Whatever parts a number is read and written with: a space for a hyphen is the same.
  const part = sql`plain_words(${`%${(typed.match(/[\p{L}\p{N}]+/gu) ?? []).join("%")}%`}::text)`;
  const whole = (column: Sql) => sql`regexp_replace(upper(${column}), '[^[:alnum:]]', '', 'g') = ${bare}`;
  const scored = (column: Sql) => sql`(CASE WHEN ${whole(column)} THEN 100 ELSE 60 END)::float8`;
  const ofClaim = (column: Sql, place: SearchedPlace) => sql`SELECT c.id, ${place}::text, ${column}, ${scored(column)} FROM claim AS c WHERE ${NUMBERS} LIKE ${part} AND plain_words(${column}) LIKE ${part}`;
  return [
    // A reference is read out in any grouping.
    sql`SELECT c.id, 'reference', c.reference, 110::float8 FROM claim AS c WHERE c.reference = ${grouped(bare)}`,
    ofClaim(sql`c.reference`, "reference"),
    ofClaim(sql`c.serial`, "serial"),
    ofClaim(sql`c.other_serial`, "serial"),
    ofClaim(sql`c.order_number`, "order"),
    sql`SELECT c.id, 'serial', u.serial, ${scored(sql`u.serial`)} FROM unit AS u JOIN claim AS c ON c.unit_id = u.id
      WHERE plain_words(u.serial) LIKE ${part} OR ${whole(sql`u.serial`)}`,
    sql`SELECT r.claim_id, 'return', r.number, ${scored(sql`r.number`)} FROM return AS r WHERE r.claim_id IS NOT NULL AND plain_words(r.number) LIKE ${part}`,
    sql`SELECT r.claim_id, 'parcel', r.tracking_number, ${scored(sql`r.tracking_number`)} FROM return AS r WHERE r.claim_id IS NOT NULL AND ${whole(sql`r.tracking_number`)}`,
  ];
}

/** Ten signs as a reference is written; anything else as it is. */
const grouped = (bare: string) => (bare.length === 10 ? `${bare.slice(0, 4)}-${bare.slice(4, 7)}-${bare.slice(7)}` : bare);

function peopleSearches(typed: string): Sql[] {
  const part = partOf(typed);
  const digits = typed.replace(/\D/g, "").replace(/^0+/, "");
  const isTelephone = digits.length >= 5 && /^[+\d\s()./-]+$/.test(typed);
  // Trigrams need three letters to tell one name from another.
  const isName = /\p{L}{3}/u.test(typed);
  const words = wordsOf(typed);
  return [
    sql`SELECT c.id, 'name', c.contact_name || coalesce(', ' || c.contact_email, ''), (CASE WHEN plain_words(c.contact_name) = plain_words(${typed}::text) THEN 70 ELSE 50 END)::float8 FROM claim AS c WHERE ${NAMES} LIKE ${part}`,
    ...(isName
      ? [sql`SELECT c.id, 'name', c.contact_name || coalesce(', ' || c.contact_email, ''), (20 * word_similarity(plain_words(${typed}::text), ${NAMES}))::float8 FROM claim AS c WHERE plain_words(${typed}::text) <% ${NAMES} AND NOT ${NAMES} LIKE ${part}`]
      : []),
    ...(isTelephone ? [sql`SELECT c.id, 'telephone', c.contact_phone, 50::float8 FROM claim AS c WHERE ${TELEPHONE} LIKE ${`%${digits}%`}`] : []),
    ...(words === null
      ? []
      : [
          inText(words, sql`c.id`, "complaint", sql`c.description`, sql`claim AS c`),
          inText(words, sql`m.claim_id`, "message", sql`m.body`, sql`message AS m`),
          inText(words, sql`n.claim_id`, "note", sql`n.body`, sql`desk_note AS n`),
        ]),
  ];
}

function inText(words: string, id: Sql, place: SearchedPlace, text: Sql, table: Sql): Sql {
  const query = sql`to_tsquery('simple', plain_words(${words}::text))`;
  // Only the best are shown with the words around them, which takes long for many.
  return sql`(SELECT f.id, ${place}::text, ts_headline('simple', f.words, f.query, ${`StartSel=${HIT_START}, StopSel=${HIT_END}, MaxWords=18, MinWords=8, ShortWord=0`}), (10 + 20 * f.rank)::float8
    FROM (SELECT ${id} AS id, ${text} AS words, q.query, ts_rank(to_tsvector('simple', plain_words(${text})), q.query) AS rank
      FROM ${table}, (SELECT ${query} AS query) AS q WHERE to_tsvector('simple', plain_words(${text})) @@ q.query ORDER BY rank DESC LIMIT 100) AS f)`;
}

/** All the words, each by its beginning, as a query; null where there are none. */
function wordsOf(typed: string): string | null {
  const words = typed.match(/[\p{L}\p{N}]+/gu) ?? [];
  return words.length === 0 ? null : words.map((word) => `${word}:*`).join(" & ");
}

/** Which of these references are those of filed claims. */
export async function findFiledReferences(references: readonly string[]): Promise<string[]> {
  return (await database().claim.findMany({ where: { reference: { in: [...references] }, stage: { not: "draft" } }, orderBy: { filedAt: "desc" }, take: 5, select: { reference: true } })).map(({ reference }) => reference);
}
