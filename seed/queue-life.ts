import { fuelOf } from "@/lib/domain/claims/fuel";
import { nextQuietStep } from "@/lib/domain/claims/reminders";
import { DESK_STAGES } from "@/lib/domain/claims/queue-order";
import { QUEUE_STAGES } from "@/lib/domain/claims/stages";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import type { Observer } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";
import { stakesOf } from "@/lib/domain/diagnosis/stakes";
import { valueOfLooking } from "@/lib/domain/diagnosis/value-of-looking";
import type { IntakeAnswers } from "@/lib/domain/intake/answers";
import { DAY, HOUR, type Instant, isoInstant } from "./calendar";
import type { World } from "./world";
import { SELLER } from "./seller";
import type { Row, Tables, Value } from "./tables";

const REMINDER_DAYS = { firstReminderDays: 4, secondReminderDays: 8, lapseNoticeDays: 10, lapseDays: 14 };
const BACK_TO_THE_DESK: readonly Value[] = ["file", "answer_checks", "answer_late", "inspect_unit", "return_expired", "appeal"];

const WORDS_ALONG = [
  "You know this garage, I have never spoken to them.",
  "I am away until Thursday. The customer was promised a call.",
  "Photos are in. Only the slope of the drain is left to judge.",
  "Second complaint about this kit this week, please keep both together.",
];

const STAKES = stakesOf({
  needlessReturnCost: SELLER.needless_return_cost,
  missedDefectCost: SELLER.missed_defect_cost,
  wrongAdviceCost: SELLER.wrong_advice_cost,
  customerMinute: SELLER.customer_minute,
  technicianMinute: SELLER.technician_minute,
  benchMinute: SELLER.bench_minute,
  lowCheck: SELLER.low_check,
  middleCheck: SELLER.middle_check,
  highCheck: SELLER.high_check,
  cautionCost: SELLER.caution_cost,
});

/**
 * What the queue lives by: the worth of a look and since when a claim lies with the desk, words along with what changed
 * hands, reminders of checks that nobody has answered, mail that came back, a complaint taken down on the telephone, and
 * views that people keep.
 */
export function addQueueLife(world: World): void {
  const { tables } = world;
  addCallAndBounce(world);
  const columns = { ...quietColumns(world) };
  const since = lastAt(tables, ({ action }) => BACK_TO_THE_DESK.includes(action ?? null));
  const worth = worthOfLooking(world);
  tables.revise("claim", (row) => ({
    look_value: worth.get(row.id ?? null) ?? null,
    desk_since: row.stage === "draft" ? null : (since.get(row.id ?? null) ?? row.filed_at ?? null),
    ...(columns[String(row.id)] ?? NOT_QUIET),
  }));
  addWordsAlong(world);
  addViews(world);
}

const isOpen = ({ stage }: Row) => QUEUE_STAGES.some((open) => open === stage);

/** When something of the kind last happened to each claim. */
function lastAt(tables: Tables, isKind: (entry: Row) => boolean): Map<Value, string> {
  const last = new Map<Value, string>();
  for (const entry of tables.rows("audit_entry")) {
    const { claim_id: claim = null, at } = entry;
    if (isKind(entry) && String(at) > (last.get(claim) ?? "")) last.set(claim, String(at));
  }
  return last;
}

/** From the newest ranking of each open claim. */
function worthOfLooking({ tables, edition }: World): Map<Value, number | null> {
  const vehicles = new Map(tables.rows("vehicle").map((vehicle) => [vehicle.id, vehicle]));
  const newest = new Map<Value, Row>();
  for (const ranking of tables.rows("ranking")) {
    const before = newest.get(ranking.claim_id ?? null);
    if (!before || String(ranking.created_at) >= String(before.created_at)) newest.set(ranking.claim_id ?? null, ranking);
  }
  return new Map(
    tables.rows("claim").filter(isOpen).flatMap((claim) => {
      const kept = newest.get(claim.id ?? null);
      if (!kept) return [];
      const vehicle = vehicles.get(claim.vehicle_id);
      const fuel = fuelOf({ vehicle: vehicle ? { fuel: String(vehicle.fuel) } : null, answers: claim.answers as unknown as IntakeAnswers });
      const { context } = kept.result as unknown as Ranking;
      return [[claim.id ?? null, valueOfLooking(kept.observations as unknown as readonly Observation[], editionForFuel(edition, fuel), { filedBy: claim.filed_by as Observer, stakes: STAKES, context })] as const];
    }),
  );
}

const NOT_QUIET = { quiet_steps: 0, quiet_from: null, lapses_at: null, lapse_held_at: null } satisfies Row;

/** Reminders as the worker would have sent them day by day; what would have lapsed is held, or was noticed late. */
function quietColumns({ random, tables, now }: World): Readonly<Record<string, Row>> {
  const heard = lastAt(tables, ({ actor_kind }) => actor_kind === "customer");
  const columns: Record<string, Row> = {};
  for (const claim of tables.rows("claim").filter(({ stage }) => stage === "awaiting_checks")) {
    const asked = tables.rows("check_request").filter(({ claim_id, state }) => claim_id === claim.id && state === "open").map(({ asked_at }) => String(asked_at));
    if (asked.length === 0 || claim.contact_email === null) continue;
    const quietSince = [...asked, heard.get(claim.id ?? null) ?? ""].toSorted().at(-1) ?? "";
    const isHeld = now - Date.parse(quietSince) > 14 * DAY && random.chance(0.3);
    let facts = { quietSince: new Date(quietSince), steps: 0, countedFrom: null as Date | null, lapsesAt: null as Date | null };
    // The reminders began with the last weeks: an older question was first reminded of then.
    for (let at: Instant = Math.max(Date.parse(quietSince), now - random.whole(5, 13) * DAY); at < now; at += DAY) {
      const due = nextQuietStep(facts, REMINDER_DAYS, new Date(at));
      if (due.do === "nothing" || due.do === "lapse") continue;
      facts = { ...facts, steps: due.step, countedFrom: due.countFrom, lapsesAt: due.lapsesAt };
      tables.add("audit_entry", {
        at: isoInstant(at),
        actor_kind: "system",
        person_id: null,
        claim_id: claim.id ?? null,
        action: due.lapsesAt ? "give_lapse_notice" : "remind_of_checks",
        detail: due.lapsesAt ? { lapsesAt: due.lapsesAt.toISOString() } : { step: due.step },
      });
    }
    columns[String(claim.id)] = isHeld
      ? { ...NOT_QUIET, lapse_held_at: isoInstant(now - DAY) }
      : { quiet_steps: facts.steps, quiet_from: facts.countedFrom?.toISOString() ?? null, lapses_at: facts.lapsesAt?.toISOString() ?? null, lapse_held_at: null };
  }
  return columns;
}

/** One claim came by telephone and has no address; of another the mail came back. */
function addCallAndBounce({ random, tables, now, staff }: World): void {
  const [taker] = staff.support;
  const waiting = tables.rows("claim").filter((claim) => isOpen(claim) && claim.contact_email !== null);
  const called = waiting.find(({ stage }) => DESK_STAGES.some((desk) => desk === stage));
  const unreached = waiting.find(({ id, stage }) => stage === "awaiting_checks" && id !== called?.id);
  tables.revise("claim", (row) => (row.id === called?.id && taker ? { taken_down_by_id: taker, contact_email: null, contact_phone: row.contact_phone ?? "+00 555 0177" } : { taken_down_by_id: null }));
  if (called && taker) tables.revise("audit_entry", (row) => (row.claim_id === called.id && row.action === "file" ? { actor_kind: "staff", person_id: taker } : {}));
  tables.revise("outgoing_mail", () => ({ bounced_at: null }));
  if (!unreached) return;
  const at = isoInstant(now - 20 * HOUR);
  const id = random.uuid();
  tables.add("outgoing_mail", {
    id,
    once_key: `check:${id}`,
    claim_id: unreached.id ?? null,
    to_name: unreached.contact_name ?? "",
    to_address: unreached.contact_email ?? "",
    subject: `One question about your complaint ${String(unreached.reference)}`,
    text: "To go on with your complaint we need you to look at one thing. Your page says what.",
    html: "<p>To go on with your complaint we need you to look at one thing. Your page says what.</p>",
    state: "failed",
    attempts: 1,
    last_error: "550 5.1.1 unknown user",
    created_at: at,
    sent_at: null,
    bounced_at: at,
  });
  tables.add("audit_entry", { at, actor_kind: "system", person_id: null, claim_id: unreached.id ?? null, action: "bounce_mail", detail: {} });
}

/** Of what is in somebody's hand now and then one came from a colleague, with a word along. */
function addWordsAlong({ random, tables, now, staff }: World): void {
  for (const { id, assigned_to_id: holder, filed_at } of tables.rows("claim").filter((claim) => isOpen(claim) && claim.assigned_to_id !== null)) {
    const giver = staff.support.find((person) => person !== holder);
    if (!giver || !random.chance(0.2)) continue;
    const at = Math.max(Date.parse(String(filed_at)) + HOUR, now - random.between(2, 40) * HOUR);
    if (at > now) continue;
    tables.add("audit_entry", { at: isoInstant(at), actor_kind: "staff", person_id: giver, claim_id: id ?? null, action: "hand_over", detail: { to: holder ?? null, reason: random.pick(WORDS_ALONG) } });
  }
}

function addViews({ random, tables, now, staff }: World): void {
  const [iris, jonah] = staff.support;
  const views: readonly (readonly [string | undefined, string, string])[] = [
    [iris, "Suspected units", "attribution=unit&sort=unit"],
    [iris, "Nobody has it yet", "who=nobody"],
    [jonah, "Ends soon", "mark=lapsing"],
    [jonah, "To call", "mark=unreached"],
  ];
  for (const [person, name, query] of views) {
    if (person) tables.add("saved_filter", { id: random.uuid(), person_id: person, name, query, is_start: false, created_at: isoInstant(now - 30 * DAY) });
  }
}
