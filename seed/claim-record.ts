import { type ClaimEvent, transition } from "@/lib/domain/claims/lifecycle";
import type { PairUnit } from "@/lib/domain/claims/pair-units";
import { makeReference } from "@/lib/domain/claims/reference";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import type { ClaimContext } from "@/lib/domain/diagnosis/experience";
import type { Observer } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";
import { DAY, type Instant, isoDate, isoInstant } from "./calendar";
import type { Seen } from "./looking";
import type { Row, Tables, Value } from "./tables";
import type { World } from "./world";

export interface ClaimStart {
  filedBy: Observer;
  /** Null in a draft. */
  contact: { name: string; email: string; phone: string | null; country: string } | null;
  description: string;
  orderNumber: string | null;
  serial: string | null;
  shipmentId: string | null;
  unitId: string | null;
  kitId: string | null;
  kitRevisionId: string | null;
  vehicleId: string | null;
  vehicleWords: string | null;
  /** What the engine burns, where the vehicle is known. */
  fuel: "diesel" | "petrol" | null;
  /** Which unit of a compound pair it is about. */
  pairUnit?: PairUnit | null;
  fitterId: string | null;
  fittedOn: number | null;
  distanceKm: number | null;
  hoursRun: number | null;
  answers: Row;
  createdAt: Instant;
}

export type Actor = { kind: "customer" | "system" } | { kind: "staff"; personId: string };
export type MutableRow = Record<string, Value>;

const EVERY_RANKING_KEPT_FOR = 90 * DAY;

/**
 * What is kept of one claim: its row, findings, rankings and audit entries. Each act moves it only where the lifecycle
 * allows it, and one later than the world's now does not happen.
 */
export class ClaimRecord {
  readonly id: string;
  readonly reference: string;
  readonly contactName: string;
  readonly contactEmail: string;
  readonly filedBy: Observer;
  stage: ClaimStage = "draft";
  protected readonly world: World;
  protected readonly claim: MutableRow;
  readonly #fuel: ClaimStart["fuel"];
  readonly #context: ClaimContext;
  readonly #findings: MutableRow[] = [];
  protected readonly rows: [Parameters<Tables["add"]>[0], MutableRow][] = [];
  #latest: { id: string; ranking: Ranking } | null = null;
  #rankingDueAt: Instant | null = null;
  #version = 0;

  constructor(world: World, start: ClaimStart) {
    const { random } = world;
    this.world = world;
    this.id = random.uuid();
    this.reference = makeReference(random.bytes(64));
    this.contactName = start.contact?.name ?? "";
    this.contactEmail = start.contact?.email ?? "";
    this.filedBy = start.filedBy;
    this.#fuel = start.fuel;
    this.#context = { kit: start.kitId, vehicle: start.vehicleId };
    this.claim = {
      id: this.id,
      reference: this.reference,
      filing_key: random.uuid(),
      answers: start.answers,
      filed_by: start.filedBy,
      contact_name: start.contact?.name ?? null,
      contact_email: start.contact?.email ?? null,
      contact_phone: start.contact?.phone ?? null,
      country: start.contact?.country ?? null,
      description: start.description,
      order_number: start.orderNumber,
      serial: start.serial,
      shipment_id: start.shipmentId,
      unit_id: start.unitId,
      kit_revision_id: start.kitRevisionId,
      vehicle_id: start.vehicleId,
      vehicle_words: start.vehicleWords,
      pair_unit: start.pairUnit ?? null,
      other_serial: null,
      fitter_id: start.fitterId,
      fitted_on: start.fittedOn === null ? null : isoDate(start.fittedOn),
      distance_km: start.distanceKm,
      hours_run: start.hoursRun,
      assigned_to_id: null,
      merged_into_id: null,
      created_at: isoInstant(start.createdAt),
      updated_at: isoInstant(start.createdAt),
      filed_at: null,
      promised_at: null,
      first_answer_at: null,
      decided_at: null,
      settled_at: null,
      leader_cause: null,
      leader_probability: null,
      unit_probability: null,
      stops_engine: false,
    };
  }

  move(event: ClaimEvent, at: Instant, actor: Actor, detail: Row = {}): boolean {
    if (at > this.world.now) return false;
    const next = transition(this.stage, event);
    if (!next.ok) throw new Error(`the demo may not ${event} a claim that is ${this.stage}`);
    this.audit(event, at, actor, { ...detail, from: this.stage, to: next.stage });
    this.stage = next.stage;
    this.#version += 1;
    this.claim.updated_at = isoInstant(at);
    return true;
  }

  /** Keeps a finding; one of the same code by the same observer is replaced. */
  see(seen: Seen, at: Instant, personId: string | null = null, inspectionId: string | null = null): string {
    for (const earlier of this.#findings)
      if (earlier.code === seen.code && earlier.observer === seen.observer && earlier.replaced_at === null) earlier.replaced_at = isoInstant(at);
    const id = this.world.random.uuid();
    this.#findings.push({
      id,
      claim_id: this.id,
      code: seen.code,
      observer: seen.observer,
      answer: seen.answer,
      measured: seen.measured,
      typed_value: seen.measured === null ? null : String(seen.measured),
      typed_unit: seen.unit,
      note: "",
      person_id: personId,
      observed_at: isoInstant(at),
      replaced_at: null,
      bench_inspection_id: inspectionId,
    });
    return id;
  }

  /**
   * Ranks the causes by the findings that stand. In an old claim only when somebody asks for it, so that the demo loads
   * quickly: of its rankings only those are kept that something was decided by.
   */
  rank(at: Instant): void {
    this.#rankingDueAt = at;
    if (this.world.now - at < EVERY_RANKING_KEPT_FOR) this.#rankNow();
  }

  /** The ranking as it stands. */
  get latest(): { id: string; ranking: Ranking } | null {
    this.#rankNow();
    return this.#latest;
  }

  #rankNow(): void {
    const at = this.#rankingDueAt;
    if (at === null) return;
    this.#rankingDueAt = null;
    const observations = this.#findings.flatMap(({ code, observer, answer, measured, replaced_at }): Observation[] => {
      if (replaced_at !== null) return [];
      const seen = { finding: String(code), observer: observer as Observer };
      if (typeof measured === "number") return [{ ...seen, measured }];
      return typeof answer === "string" && answer !== "unknown" ? [{ ...seen, answer }] : [];
    });
    const ranking = rankCauses(observations, editionForFuel(this.world.edition, this.#fuel), this.#context);
    const leader = ranking.outcome === "ranked" ? ranking.causes[0] : undefined;
    const id = this.world.random.uuid();
    // Plain data by design; the compiler cannot see that of an interface.
    this.add("ranking", { id, edition_number: ranking.edition, observations: observations as unknown as Value, result: ranking as unknown as Value, created_at: isoInstant(at) });
    this.claim.leader_cause = leader?.code ?? null;
    this.claim.leader_probability = leader?.probability ?? null;
    this.claim.unit_probability = ranking.outcome === "ranked" ? ranking.unitDefective : null;
    this.claim.stops_engine = ranking.stopEngine !== null;
    this.#latest = { id, ranking };
  }

  audit(action: string, at: Instant, actor: Actor, detail: Row = {}): void {
    this.world.tables.add("audit_entry", {
      at: isoInstant(at),
      actor_kind: actor.kind,
      person_id: actor.kind === "staff" ? actor.personId : null,
      claim_id: this.id,
      action,
      detail,
    });
  }

  /** Hands everything over to the tables. */
  tell(): void {
    this.#rankNow();
    const { tables } = this.world;
    tables.add("claim", { ...this.claim, stage: this.stage, version: this.#version });
    for (const finding of this.#findings) tables.add("finding", finding);
    for (const [table, row] of this.rows) tables.add(table, { ...row, claim_id: this.id });
  }

  protected add(table: Parameters<Tables["add"]>[0], row: MutableRow): void {
    this.rows.push([table, row]);
  }

  protected firstAnswer(at: Instant): void {
    this.claim.first_answer_at ??= isoInstant(at);
  }
}
