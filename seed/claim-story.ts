import type { BenchStep } from "@/lib/domain/claims/bench-steps";
import { kindOfRemedy } from "@/lib/domain/claims/bookings";
import type { DispositionKind } from "@/lib/domain/claims/dispositions";
import { promisedAnswer } from "@/lib/domain/claims/promised-answer";
import { makeReference } from "@/lib/domain/claims/reference";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { Verdict, VerdictBasis } from "@/lib/domain/claims/verdict";
import type { Observer } from "@/lib/domain/diagnosis/knowledge";
import { unitField } from "@/lib/domain/intake/fields";
import { DAY, HOUR, type Instant, isoDate, isoInstant } from "./calendar";
import { type Actor, ClaimRecord, type MutableRow } from "./claim-record";
import type { Seen } from "./looking";
import { SCENES, type SceneName } from "./photos/scenes";
import { SELLER } from "./seller";
import type { Row } from "./tables";

/** Days for which the shop keeps a unit as evidence. */
const EVIDENCE_KEPT_FOR = 180;
const WORKING_HOURS = { timeZone: SELLER.time_zone, workingDays: SELLER.working_days, opensAt: SELLER.opens_at, closesAt: SELLER.closes_at };

/**
 * One claim as it is lived: each act is dated, moves the claim only where the lifecycle allows it and leaves its audit
 * entry, as the operations of the product do. An act later than the world's now does not happen, and says so by false.
 */
export class ClaimStory extends ClaimRecord {
  /** Of the verdict that stands. */
  remedy: Remedy = "advice";
  #openReturn: MutableRow | null = null;
  #photos = 0;

  file(at: Instant): boolean {
    if (!this.move("file", at, { kind: "customer" })) return false;
    this.claim.filed_at = isoInstant(at);
    this.claim.promised_at = promisedAnswer(new Date(at), SELLER.promised_answer_hours, WORKING_HOURS).toISOString();
    return true;
  }

  takeUp(at: Instant, personId: string): boolean {
    if (!this.move("take_up", at, staff(personId))) return false;
    this.claim.assigned_to_id = personId;
    return true;
  }

  say(from: "customer" | "staff", body: string, at: Instant, personId: string | null = null): void {
    if (at > this.world.now) return;
    this.add("message", { id: this.world.random.uuid(), from, person_id: personId, body, created_at: isoInstant(at) });
    if (from === "staff") this.firstAnswer(at);
    this.audit("write_message", at, personId ? staff(personId) : { kind: "customer" });
  }

  /** Asks for a check. The request is answered later by `close`. */
  ask(findingCode: string, note: string, at: Instant, personId: string): MutableRow | null {
    if (!this.move("ask_for_check", at, staff(personId), { finding: findingCode })) return null;
    this.firstAnswer(at);
    const request: MutableRow = {
      id: this.world.random.uuid(),
      finding_code: findingCode,
      note,
      state: "open",
      asked_by_id: personId,
      asked_at: isoInstant(at),
      closed_at: null,
      finding_id: null,
    };
    this.add("check_request", request);
    return request;
  }

  close(request: MutableRow, state: "answered" | "withdrawn", at: Instant, findingId: string | null): void {
    request.state = state;
    request.closed_at = isoInstant(at);
    request.finding_id = findingId;
    this.audit(state === "answered" ? "answer_check" : "withdraw_check", at, { kind: state === "answered" ? "customer" : "system" }, { finding: request.finding_code ?? null });
  }

  authoriseReturn(at: Instant, personId: string): boolean {
    if (!this.move("authorise_return", at, staff(personId))) return false;
    this.firstAnswer(at);
    this.#openReturn = {
      id: this.world.random.uuid(),
      number: `R-${makeReference(this.world.random.bytes(64))}`,
      state: "authorised",
      authorised_by_id: personId,
      authorised_at: isoInstant(at),
      expires_at: isoInstant(at + SELLER.return_within_days * DAY),
      received_at: null,
      serial_seen: null,
      carrier: null,
      tracking_number: null,
      sent_at: null,
    };
    this.add("return", this.#openReturn);
    return true;
  }

  /** The unit goes from state to state; the claim waits. */
  carry(state: "in_carriage" | "received" | "on_the_bench", at: Instant, personId: string | null = null): boolean {
    if (at > this.world.now || !this.#openReturn) return false;
    this.#openReturn.state = state;
    if (state === "in_carriage") this.#openReturn.sent_at = isoInstant(at);
    if (state === "received") {
      this.#openReturn.received_at = isoInstant(at);
      this.#openReturn.serial_seen = this.claim.serial ?? null;
    }
    this.audit(`return_${state}`, at, personId ? staff(personId) : { kind: "system" });
    return true;
  }

  /** Puts the unit on the bench and begins its inspection, which is told step by step. */
  beginInspection(at: Instant): string {
    const { bench } = this.world.staff;
    if (!this.carry("on_the_bench", at, bench)) throw new Error("the demo inspects only a unit that came in before the end of the story");
    const id = this.world.random.uuid();
    this.world.tables.add("bench_inspection", { id, return_id: this.#openReturn?.id ?? null, inspected_by_id: bench, started_at: isoInstant(at), inspected_at: null, note: "" });
    return id;
  }

  /** Keeps one step of it: what was found joins the evidence, and the causes are ranked anew. */
  keepStep(inspectionId: string, { step, found, facts }: { step: BenchStep; found: readonly Seen[]; facts: Readonly<Record<string, string>> }, at: Instant): void {
    const { bench } = this.world.staff;
    const [unitBefore, leaderBefore] = this.#standing();
    for (const seen of found) this.see(seen, at, bench, inspectionId);
    if (found.length > 0) {
      this.rank(at);
      this.audit("record_at_bench", at, staff(bench), { step, findings: found.map(({ code }) => code) });
    }
    const [unitAfter, leaderAfter] = this.#standing();
    const typed = found.map(({ code, answer, measured, unit }) => (measured === null ? { [code]: answer } : { [code]: String(measured), [unitField(code)]: unit }));
    this.world.tables.add("bench_step_record", {
      inspection_id: inspectionId,
      step,
      is_skipped: false,
      typed: Object.assign({}, facts, ...typed) as Row,
      unit_before: found.length > 0 ? unitBefore : null,
      unit_after: found.length > 0 ? unitAfter : null,
      leader_before: found.length > 0 ? leaderBefore : null,
      leader_after: found.length > 0 ? leaderAfter : null,
      saved_by_id: bench,
      saved_at: isoInstant(at),
    });
  }

  finishInspection(inspectionId: string, note: string, at: Instant): void {
    if (!this.move("inspect_unit", at, staff(this.world.staff.bench))) throw new Error("the demo finishes an inspection before the end of the story");
    this.world.tables.amend("bench_inspection", "id", inspectionId, { inspected_at: isoInstant(at), note });
  }

  /** The chance of a defective unit, and what leads. */
  #standing(): readonly [number | null, string | null] {
    const ranking = this.latest?.ranking;
    return ranking?.outcome === "ranked" ? [ranking.unitDefective, ranking.causes[0]?.code ?? null] : [null, null];
  }

  expireReturn(at: Instant): boolean {
    if (!this.move("return_expired", at, { kind: "system" })) return false;
    if (this.#openReturn) this.#openReturn.state = "expired";
    return true;
  }

  inspect(found: readonly Seen[], note: string, disposition: DispositionKind, at: Instant): boolean {
    const returned = this.#openReturn;
    const { bench } = this.world.staff;
    if (!returned || !this.move("inspect_unit", at, staff(bench))) return false;
    const inspectionId = this.world.random.uuid();
    this.world.tables.add("bench_inspection", { id: inspectionId, return_id: returned.id ?? null, inspected_by_id: bench, started_at: isoInstant(at - HOUR / 2), inspected_at: isoInstant(at), note });
    for (const seen of found) this.see(seen, at, bench, inspectionId);
    returned.state = "dispositioned";
    this.world.tables.add("disposition", {
      id: returned.id ?? null,
      return_id: returned.id ?? null,
      kind: disposition,
      reason: "",
      keep_until: disposition === "held_as_evidence" ? isoDate(Math.floor(at / DAY) + EVIDENCE_KEPT_FOR) : null,
      decided_by_id: bench,
      decided_at: isoInstant(at),
      superseded_at: null,
    });
    return true;
  }

  decide(verdict: Verdict, at: Instant, personId: string): boolean {
    const { primaryCause, attribution, origin, way, basis, remedy } = verdict;
    if (!this.move("decide", at, staff(personId), { primaryCause, attribution, origin, way, basis, remedy })) return false;
    this.firstAnswer(at);
    this.claim.decided_at = isoInstant(at);
    this.remedy = remedy;
    this.add("verdict", {
      id: this.world.random.uuid(),
      primary_cause: primaryCause,
      contributing_causes: [...verdict.contributingCauses],
      attribution,
      origin,
      way,
      basis,
      reason: verdict.reason,
      remedy,
      promised_minor: verdict.promisedMinor,
      promised_currency: verdict.promisedCurrency,
      seller_percent: verdict.sellerPercent,
      core_deposit_minor: verdict.coreDepositMinor,
      pays_carriage: verdict.paysCarriage,
      letter_photos: [...verdict.letterPhotos],
      // Written at the end, when all is known that it tells.
      letter: "",
      ranking_id: this.latest?.id ?? null,
      decided_by_id: personId,
      decided_at: isoInstant(at),
      approved_by_id: null,
      approved_at: null,
      superseded_at: null,
      objection: "",
    });
    return true;
  }

  settle(remedy: Remedy, amountMinor: number, at: Instant, personId: string): boolean {
    if (!this.move("settle", at, staff(personId), { remedy, amountMinor })) return false;
    this.claim.settled_at = isoInstant(at);
    const kind = kindOfRemedy(remedy);
    if (kind && amountMinor !== 0)
      this.add("settlement", {
        id: this.world.random.uuid(),
        kind,
        amount_minor: amountMinor,
        seller_minor: amountMinor,
        customer_minor: 0,
        supplier_minor: 0,
        held_minor: 0,
        currency: SELLER.currency,
        round: 0,
        note: "",
        booked_by_id: personId,
        booked_at: isoInstant(at),
        reverses_id: null,
      });
    return true;
  }

  appeal(words: string, at: Instant): boolean {
    if (!this.move("appeal", at, { kind: "customer" })) return false;
    for (const [table, row] of this.rows) if (table === "verdict" && row.superseded_at === null) Object.assign(row, { superseded_at: isoInstant(at), objection: words });
    this.claim.decided_at = null;
    this.claim.settled_at = null;
    this.say("customer", words, at);
    return true;
  }

  merge(into: { id: string; reference: string }, at: Instant, personId: string): boolean {
    if (!this.move("merge", at, staff(personId), { into: into.reference })) return false;
    this.claim.merged_into_id = into.id;
    this.world.tables.add("audit_entry", { at: isoInstant(at), actor_kind: "staff", person_id: personId, claim_id: into.id, action: "take_in", detail: { other: this.reference } });
    return true;
  }

  /** Keeps a picture and gives the key it is stored under. */
  photograph(scene: SceneName, at: Instant, takenBy: Observer, atBench: { inspectionId: string; step: BenchStep } | null = null): string {
    const picture = this.world.pictures.get(scene);
    if (!picture) throw new Error(`no picture was drawn of ${scene}`);
    this.#photos += 1;
    const storageKey = `claims/${this.id}/photo-${this.#photos}`;
    const id = this.world.random.uuid();
    this.audit("attach_photo", at, takenBy === "bench" ? staff(this.world.staff.bench) : { kind: "customer" }, { photoId: id });
    this.add("photo", {
      id,
      subject: SCENES[scene].subject,
      storage_key: storageKey,
      width: picture.width,
      height: picture.height,
      bytes: picture.full.length,
      sha256: picture.sha256,
      taken_by: takenBy,
      bench_inspection_id: atBench?.inspectionId ?? null,
      bench_step: atBench?.step ?? null,
      created_at: isoInstant(at),
    });
    return storageKey;
  }

}

/** The weightiest ground among those who looked. */
export function basisOf(observers: ReadonlySet<Observer>, hasPhoto: boolean): VerdictBasis {
  if (observers.has("bench")) return "bench";
  if (observers.has("technician")) return "technician";
  return hasPhoto ? "photo" : "customer_word";
}

function staff(personId: string): Actor {
  return { kind: "staff", personId };
}
