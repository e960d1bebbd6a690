import { costOfRemedy, lineTotal } from "@/lib/domain/claims/chargeback";
import type { BookingKind } from "@/lib/domain/claims/bookings";
import { DAY, HOUR, isoDate, isoInstant } from "./calendar";
import type { World } from "./world";
import { SELLER } from "./seller";
import type { Row } from "./tables";

/** Cost of a minute at the bench in the demo, and how long its inspections take. */
const BENCH_MINUTE = 0.8;
const BENCH_MINUTES = 30;

const SUPPLIERS = [
  { code: "VORTANE", name: "Vortane Castings", email: "quality@vortane.example", address: "Foundry Road 12, 4020 Linz, Austria", answer_within_days: 30 },
  { code: "ORSELL", name: "Orsell Hose and Flange", email: "claims@orsell.example", address: "Canal Works 7, Sheffield S9 2QX, United Kingdom", answer_within_days: 45 },
] as const;

/** Who makes what, two demands on the maker of the units, one of them answered in part. */
export function addChargebacks(world: World): void {
  const { random, tables, now } = world;
  const [units, parts] = SUPPLIERS.map((supplier) => {
    const id = random.uuid();
    tables.add("supplier", { id, ...supplier });
    return id;
  });
  tables.revise("turbo_model", () => ({ supplier_id: units ?? null }));
  tables.revise("kit", () => ({ supplier_id: parts ?? null }));
  const madeBy = tables.rows("person").find(({ role }) => role === "product")?.id ?? null;
  const standing = tables.rows("verdict").filter(({ superseded_at, attribution, decided_at }) => superseded_at === null && attribution === "unit" && Date.parse(String(decided_at)) < now - 40 * DAY);
  charge(world, standing.slice(0, 5), { supplierId: units ?? "", madeBy, daysAgo: 38, isAnswered: true });
  charge(world, standing.slice(5, 9), { supplierId: units ?? "", madeBy, daysAgo: 12, isAnswered: false });
}

interface Demand {
  supplierId: string;
  madeBy: Row[string];
  daysAgo: number;
  isAnswered: boolean;
}

function charge({ random, tables, now }: World, verdicts: readonly Row[], { supplierId, madeBy, daysAgo, isAnswered }: Demand): void {
  if (verdicts.length === 0) return;
  const [id, at] = [random.uuid(), now - daysAgo * DAY];
  const units = new Map(tables.rows("unit").map((unit) => [unit.id, unit]));
  const claims = new Map(tables.rows("claim").map((claim) => [claim.id, claim]));
  const inspected = new Set(tables.rows("bench_inspection").map(({ return_id }) => tables.rows("return").find((one) => one.id === return_id)?.claim_id));
  tables.add("chargeback", {
    id,
    supplier_id: supplierId,
    state: isAnswered ? "accepted_in_part" : "sent",
    currency: SELLER.currency,
    bench_minute: BENCH_MINUTE,
    note: "",
    version: isAnswered ? 2 : 1,
    made_by_id: madeBy ?? null,
    made_at: isoInstant(at),
    sent_at: isoInstant(at + HOUR),
    answer_due_on: isoDate(Math.floor(at / DAY) + 30),
    closed_at: null,
  });
  verdicts.forEach((verdict, index) => {
    const unit = units.get(claims.get(verdict.claim_id ?? null)?.unit_id ?? null);
    const booked = tables.rows("settlement").filter(({ claim_id }) => claim_id === verdict.claim_id);
    const cost = costOfRemedy(
      booked.map((one) => ({ kind: one.kind as BookingKind, currency: String(one.currency), sellerMinor: Number(one.seller_minor), supplierMinor: Number(one.supplier_minor) })),
      SELLER.currency,
    );
    const minutes = inspected.has(verdict.claim_id) ? BENCH_MINUTES : 0;
    const amounts = { ...cost, benchMinor: Math.round(minutes * BENCH_MINUTE * 100) };
    const lineId = random.uuid();
    tables.add("chargeback_line", { id: lineId, chargeback_id: id, verdict_id: verdict.id ?? null, serial: unit?.serial ?? null, batch: unit?.batch ?? null, cause: verdict.primary_cause ?? null, remedy_minor: amounts.remedyMinor, carriage_minor: amounts.carriageMinor, bench_minutes: minutes, bench_minor: amounts.benchMinor });
    if (!isAnswered) return;
    const isRefused = index === 1;
    tables.add("chargeback_answer", { id: random.uuid(), line_id: lineId, accepted_minor: isRefused ? 0 : lineTotal(amounts), note: isRefused ? "Starved of oil in our view." : "", booked_by_id: madeBy ?? null, booked_at: isoInstant(at + 20 * DAY), superseded_at: null });
  });
}
