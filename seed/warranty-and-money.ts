import { movesOf } from "@/lib/domain/claims/bookings";
import { shareOut } from "@/lib/domain/claims/bearing-shares";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { TermsDocument } from "@/lib/domain/warranty/terms";
import { DAY, type Instant, isoDate, isoInstant } from "./calendar";
import type { World } from "./world";
import { SELLER } from "./seller";
import type { Row } from "./tables";

/** How long verdicts have waited for a second person in this house, and how many wait now. */
const SECOND_PERSON_SINCE = 120 * DAY;
const WAITING_NOW = 4;
/** Above this, cents, a second person looked at it. */
const ABOVE_MINOR = SELLER.second_person_above * 100;

const FIRST_TERMS: TermsDocument = { period: { from: "shipment", months: 12, distanceKm: null, hours: null }, fitter: "anyone", lostBy: ["unit_opened"], kits: [], countries: [] };

const SECOND_TERMS: TermsDocument = {
  period: { from: "fitting", months: 24, distanceKm: 60_000, hours: null },
  fitter: "anyone",
  lostBy: ["starved_of_oil", "struck_by_object", "unit_opened", "boost_raised"],
  kits: [
    { kit: "KH-410", months: null, distanceKm: null, hours: null, fitter: "workshop" },
    { kit: "KH-710", months: 12, distanceKm: null, hours: 1_500, fitter: null },
  ],
  countries: [
    { country: "DE", note: "Whoever bought as a consumer has rights against the seller by law, beside these terms and before them. Ask our adviser before a complaint of the first two years is declined." },
    { country: "NL", note: "What a buyer may expect of a unit counts here more than a number of months. Do not decline by the calendar alone; ask our adviser." },
  ],
};

/** The terms of the demo's seller, what verdicts promised and what is booked of it, and a few verdicts that wait. */
export function addWarrantyAndMoney(world: World): void {
  addTerms(world);
  promiseAndBook(world);
  proposeVerdicts(world);
}

function addTerms({ tables, now }: World): void {
  const admin = tables.rows("person").find(({ role }) => role === "admin")?.id;
  if (typeof admin !== "string") throw new Error("the demo needs an administrator who puts terms in force");
  const today = Math.floor(now / DAY);
  const put = (number: number, daysAgo: number, document: TermsDocument, change: string) => {
    const at = isoInstant((today - daysAgo - 10) * DAY);
    // Plain data by design; the compiler cannot see that of an interface.
    tables.add("warranty_terms", { number, valid_from: isoDate(today - daysAgo), document: document as unknown as Row, change, drafted_by_id: admin, drafted_at: at, updated_at: at, in_force_at: at, put_in_force_by_id: admin });
  };
  put(1, 1_500, FIRST_TERMS, "The first terms.");
  put(2, 420, SECOND_TERMS, "Two years instead of one, from fitting, and 60,000 km; what it is lost by is named; notes for two countries.");
}

/** Goodwill is shared, refunds and courtesies have their sum in the verdict, and with some replacements a deposit is held. */
function promiseAndBook({ random, tables, now, staff }: World): void {
  const verdicts = new Map(tables.rows("verdict").flatMap((row) => (row.superseded_at === null ? [[row.claim_id, row] as const] : [])));
  const promised = new Map<Row, Row>();
  const shared = new Map<Row, Row>();
  const more: Row[] = [];
  const book = (settlement: Row, kind: "carriage_back" | "core_held" | "core_released" | "core_kept", amountMinor: number, at: Instant, note = "") => {
    if (at > now) return;
    more.push({ ...settlement, id: random.uuid(), kind, amount_minor: amountMinor, ...columns(movesOf(kind, amountMinor, shareOut(amountMinor, { sellerPercent: 100, supplierPercent: 0 }))), note, booked_at: isoInstant(at) });
  };

  for (const settlement of tables.rows("settlement")) {
    const verdict = verdicts.get(settlement.claim_id ?? null);
    if (!verdict) continue;
    const [amount, bookedAt] = [Number(settlement.amount_minor), Date.parse(String(settlement.booked_at))];
    const sum = (sellerPercent: number, allMinor: number): Row => ({ promised_minor: allMinor, promised_currency: SELLER.currency, seller_percent: sellerPercent });
    if (settlement.kind === "goodwill") {
      const sellerPercent = random.pick([40, 50, 50, 60, 70, 75, 100]);
      const allMinor = Math.round((amount * 100) / sellerPercent);
      promised.set(verdict, sum(sellerPercent, allMinor));
      shared.set(settlement, { amount_minor: allMinor, ...columns(movesOf("goodwill", allMinor, shareOut(allMinor, { sellerPercent, supplierPercent: 0 }))) });
    } else if (settlement.kind === "refund") promised.set(verdict, sum(100, amount));
    else if (settlement.kind === "replacement" && random.chance(0.4)) {
      promised.set(verdict, { promised_currency: SELLER.currency, core_deposit_minor: 15_000, pays_carriage: true });
      book(settlement, "core_held", 15_000, Date.parse(String(verdict.decided_at)) + DAY / 24);
      book(settlement, "carriage_back", random.whole(1_400, 3_200), bookedAt - DAY / 48);
      if (random.chance(0.85)) book(settlement, "core_released", 15_000, bookedAt - DAY / 96, "Came back complete");
      else book(settlement, "core_kept", 15_000, bookedAt - DAY / 96, "Housing cracked, wheel missing");
    }
  }

  for (const verdict of verdicts.values()) {
    const decidedAt = Date.parse(String(verdict.decided_at));
    const settlement = tables.rows("settlement").find(({ claim_id }) => claim_id === verdict.claim_id);
    if (now - decidedAt > SECOND_PERSON_SINCE || Number(settlement?.amount_minor ?? 0) <= ABOVE_MINOR) continue;
    const other = staff.support.find((person) => person !== verdict.decided_by_id);
    promised.set(verdict, { ...promised.get(verdict), approved_by_id: other ?? null, approved_at: other ? (verdict.decided_at ?? null) : null });
  }
  tables.revise("verdict", (row) => promised.get(row) ?? {});
  tables.revise("settlement", (row) => shared.get(row) ?? {});
  for (const row of more) {
    tables.add("settlement", row);
    tables.add("audit_entry", { at: row.booked_at ?? null, actor_kind: "staff", person_id: row.booked_by_id ?? null, claim_id: row.claim_id ?? null, action: "book_settlement", detail: { kind: row.kind ?? null, amountMinor: row.amount_minor ?? null, currency: SELLER.currency } });
  }
}

const columns = (moves: ReturnType<typeof movesOf>): Row => ({ seller_minor: moves.sellerMinor, customer_minor: moves.customerMinor, supplier_minor: moves.supplierMinor, held_minor: moves.heldMinor });

/** A few claims in review whose verdict waits: units to replace, and one refusal against the ranking. */
function proposeVerdicts({ random, tables, now, edition, staff }: World): void {
  const rankings = new Map(tables.rows("ranking").map((row) => [row.claim_id, row]));
  const inReview = tables.rows("claim").filter(({ stage, id }) => stage === "in_review" && rankings.has(id ?? null) && !tables.rows("verdict").some(({ claim_id }) => claim_id === id));
  const byUnit = [...inReview].sort((a, b) => Number(b.unit_probability) - Number(a.unit_probability));
  byUnit.slice(0, WAITING_NOW).forEach((claim, place) => {
    const cause = edition.causes.find(({ code }) => code === claim.leader_cause);
    const proposer = staff.support[place % 2];
    if (!cause || !proposer) return;
    const declines = cause.attribution === "unit" && place === WAITING_NOW - 1;
    const remedy: Remedy = declines ? "declined" : "replacement";
    const at = isoInstant(now - random.between(0.5, 20) * (DAY / 24));
    tables.add("verdict_proposal", {
      id: random.uuid(),
      claim_id: claim.id ?? null,
      primary_cause: cause.code,
      contributing_causes: [],
      attribution: cause.attribution,
      origin: cause.originIsOpen ? "not_known" : null,
      way: "confirmed",
      basis: "technician",
      reason: declines ? "The fitter says that it ran dry for a minute." : "Every drain and crankcase question is answered by what the garage sent.",
      remedy,
      promised_minor: null,
      promised_currency: declines ? null : SELLER.currency,
      seller_percent: 100,
      core_deposit_minor: declines ? null : 15_000,
      pays_carriage: !declines,
      letter: "",
      explanation: "",
      letter_photos: [],
      grounds: [declines ? "declined_against_ranking" : "above_value"],
      ranking_id: rankings.get(claim.id ?? null)?.id ?? null,
      proposed_by_id: proposer,
      proposed_at: at,
      state: "waiting",
      looked_at_by_id: null,
      looked_at_at: null,
      note: "",
    });
    tables.add("audit_entry", { at, actor_kind: "staff", person_id: proposer, claim_id: claim.id ?? null, action: "propose_verdict", detail: { primaryCause: cause.code, remedy } });
  });
}
