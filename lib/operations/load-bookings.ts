import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { listBookings, sumBookings } from "@/lib/data/settlements";
import { BOOKING_NAMES, type BookedTotal, type BookingKind, totalsOf } from "@/lib/domain/claims/bookings";
import { fromMinor } from "@/lib/domain/claims/money";
import { REMEDY_NAMES } from "@/lib/domain/claims/remedies";
import { monthsLater, type Period } from "@/lib/domain/reporting/month";
import { type FileTable, fileTable } from "@/lib/files/table";
import type { BookingsFileFilter, BookingsFilter } from "@/lib/inputs/settlement";
import { type Refusal, refuse } from "./refusal";

export interface BookingsReport {
  ok: true;
  lines: readonly (Omit<BookedTotal, "allMinor"> & { kind: BookingKind; bookings: number })[];
  totals: readonly BookedTotal[];
}

/** What was booked in a period of months, by kind and currency, with who bears it. Months change at midnight UTC. */
export async function loadBookings(actor: StaffActor, filter: BookingsFilter): Promise<BookingsReport | Refusal> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const lines = await sumBookings(...boundsOf(filter));
  return { ok: true, lines, totals: totalsOf(lines) };
}

const COLUMNS = {
  day: "booked on",
  claim: "claim",
  kit: "kit",
  revision: "revision",
  attribution: "verdict lies with",
  remedy: "remedy of the verdict",
  kind: "booked for",
  reversal: "reversal",
  currency: "currency",
  all: "amount booked",
  seller: "seller bears",
  customer: "customer bears",
  supplier: "supplier bears",
  held: "held",
};

/** The same as a file, or booking by booking without notes: staff may name customers there. */
export async function exportBookings(actor: StaffActor, filter: BookingsFileFilter): Promise<{ ok: true; table: FileTable } | Refusal> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  if (filter.table === "sums") return { ok: true, table: sumsTable(await sumBookings(...boundsOf(filter))) };
  const rows = (await listBookings(...boundsOf(filter))).map(({ claim, kind, amountMinor, sellerMinor, customerMinor, supplierMinor, heldMinor, currency, bookedAt, reversesId }) => {
    const sum = (minor: number) => fromMinor(minor, currency);
    const [verdict] = claim.verdicts;
    return {
      day: bookedAt.toISOString().slice(0, 10),
      claim: claim.reference,
      kit: claim.kitRevision?.kit.code ?? null,
      revision: claim.kitRevision?.revision ?? null,
      attribution: verdict?.attribution ?? null,
      remedy: verdict ? REMEDY_NAMES[verdict.remedy] : null,
      kind: BOOKING_NAMES[kind],
      reversal: reversesId === null ? "no" : "yes",
      currency,
      all: sum(amountMinor),
      seller: sum(sellerMinor),
      customer: sum(customerMinor),
      supplier: sum(supplierMinor),
      held: sum(heldMinor),
    };
  });
  return { ok: true, table: fileTable(COLUMNS, rows) };
}

function sumsTable(lines: BookingsReport["lines"]): FileTable {
  return fileTable(
    { kind: "booked for", bookings: "bookings", currency: "currency", seller: "seller bears", customer: "customer bears", supplier: "supplier bears", held: "held" },
    lines.map(({ kind, bookings, currency, sellerMinor, customerMinor, supplierMinor, heldMinor }) => {
      const sum = (minor: number) => fromMinor(minor, currency);
      return { kind: BOOKING_NAMES[kind], bookings, currency, seller: sum(sellerMinor), customer: sum(customerMinor), supplier: sum(supplierMinor), held: sum(heldMinor) };
    }),
  );
}

const boundsOf = ({ from, to }: Period): [from: Date, before: Date] => [new Date(`${from}-01T00:00:00Z`), new Date(`${monthsLater(to, 1)}-01T00:00:00Z`)];
