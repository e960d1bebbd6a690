import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadEditionInForce } from "@/lib/data/editions";
import { listKits, vehicleName } from "@/lib/data/purchases";
import { type HandOverNote, listHandOverNotes } from "@/lib/data/hand-overs";
import { listDeskPeople } from "@/lib/data/claims-for-staff";
import { listPresent } from "@/lib/data/presence";
import { countWaiting, type findQueueRows, listQueue, type QueueAsker } from "@/lib/data/queue";
import { listSavedFilters, type SavedFilter } from "@/lib/data/saved-filters";
import { listSameSerial } from "@/lib/data/same-unit";
import { loadSettings, type SellerSettings } from "@/lib/data/settings";
import type { Language } from "@/lib/domain/claims/languages";
import { formatEstimate } from "@/lib/domain/claims/money";
import { callInWords, ENDED, isLate, reasonForPlace, worthInWords, wroteInWords } from "@/lib/domain/claims/queue-order";
import { sameSerialInWords } from "@/lib/domain/claims/same-unit";
import { isContested, mayDecideAgain } from "@/lib/domain/claims/verdict";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Attribution } from "@/lib/domain/diagnosis/attributions";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import type { OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import type { QueueFilter } from "@/lib/inputs/queue-filter";
import { type Refusal, refuse } from "./refusal";

export interface QueueRow {
  id: string;
  reference: string;
  /** What the customer reads and writes. */
  language: Language;
  stage: ClaimStage;
  reason: string;
  /** That a verdict waits for a second person, or an objection for another than who decided, in words. */
  secondLook: string | null;
  /** What looking now is expected to save, in words. */
  worth: string | null;
  /** That the customer wrote and nobody has answered, in words. */
  wrote: string | null;
  /** Why the customer has to be called: no mail reaches them. */
  call: string | null;
  /** That another claim names the same serial, in words. */
  sameSerial: string | null;
  /** The day on which it lapses, once notice has been given. */
  lapsesAt: Date | null;
  isLate: boolean;
  stopsEngine: boolean;
  kit: string | null;
  vehicle: string | null;
  leader: { name: string; part: OilPathPart; attribution: Attribution; probability: number } | null;
  unitDefective: number | null;
  promisedAt: Date;
  assignedTo: { name: string; isMe: boolean } | null;
  /** The word along with which it was last handed over. */
  note: HandOverNote | null;
  /** Who else has it open now. */
  others: readonly string[];
}

export interface Queue {
  ok: true;
  rows: readonly QueueRow[];
  total: number;
  pages: number;
  waiting: number;
  late: number;
  mustStandStill: number;
  kits: readonly { code: string; name: string }[];
  people: readonly { id: string; name: string }[];
  filters: readonly SavedFilter[];
  timeZone: string;
}

const PER_PAGE = 50;

/** One page of the queue, each claim with the reason for its place. */
export async function loadQueue(actor: StaffActor, filter: QueueFilter, now: Date = new Date()): Promise<Queue | Refusal> {
  const refused = await refuse(actor, "see the queue");
  if (refused) return refused;
  const edition = await loadEditionInForce();
  const [{ total, rows }, counts, kits, people, filters, settings] = await Promise.all([
    listQueue(filter, askerOf(filter, actor, edition, now), PER_PAGE),
    countWaiting(now),
    listKits(),
    listDeskPeople(),
    listSavedFilters(actor.personId),
    loadSettings(),
  ]);
  return { ok: true, total, pages: Math.max(1, Math.ceil(total / PER_PAGE)), ...counts, kits, people, filters, timeZone: settings.timeZone, rows: await queueRows(rows, { actor, edition, settings, now }) };
}

/** Who asks for a view, and the causes that its leader may be. Part of other operations, which have checked who asks. */
export function askerOf({ attribution }: QueueFilter, actor: StaffActor, edition: Edition, now: Date): QueueAsker {
  const leaders = attribution ? edition.causes.filter((cause) => cause.attribution === attribution).map(({ code }) => code) : null;
  return { personId: actor.personId, leaders, now };
}

/** @example "waits for a second pair of eyes: Iris Velthuis proposed a verdict" */
function secondLookInWords({ proposals: [waiting], verdicts }: Awaited<ReturnType<typeof findQueueRows>>[number], actor: StaffActor): string | null {
  if (waiting) return waiting.proposedBy.id === actor.personId ? "your verdict waits for a second pair of eyes" : `waits for a second pair of eyes: ${waiting.proposedBy.name} proposed a verdict`;
  return mayDecideAgain({ id: actor.personId, role: actor.role }, verdicts) ? null : "for somebody else: you gave the verdict that is objected to";
}

/** Claims as the queue shows them. Part of other operations, which have checked who asks. */
export async function queueRows(
  rows: Awaited<ReturnType<typeof findQueueRows>>,
  { actor, edition, settings, now }: { actor: StaffActor; edition: Edition; settings: Pick<SellerSettings, "currency">; now: Date },
): Promise<QueueRow[]> {
  const ids = rows.map(({ id }) => id);
  const [present, notes, twins] = await Promise.all([listPresent(ids, actor.personId, now), listHandOverNotes(ids), listSameSerial(ids)]);
  const money = (sum: number) => formatEstimate(sum, settings.currency);
  return rows.map((row) => {
    const leader = edition.causes.find(({ code }) => code === row.leaderCause);
    // A claim that was filed has a promised time: the database asks for it.
    const place = { ...row, promisedAt: row.promisedAt ?? now };
    const reason = reasonForPlace(place, now);
    const isOpen = reason !== ENDED;
    const note = notes.get(row.id);
    return {
      id: row.id,
      reference: row.reference,
      language: row.language,
      stage: row.stage,
      reason,
      worth: worthInWords(place, money),
      wrote: wroteInWords({ ...place, isContested: isContested(row.verdicts) }, now),
      secondLook: isOpen ? secondLookInWords(row, actor) : null,
      call: isOpen ? callInWords({ email: row.contactEmail, hasBounced: row.mails.length > 0 }) : null,
      sameSerial: isOpen ? sameSerialInWords(twins.get(row.id) ?? []) : null,
      lapsesAt: row.stage === "awaiting_checks" ? row.lapsesAt : null,
      isLate: isOpen && isLate(place, now),
      stopsEngine: row.stopsEngine && isOpen,
      kit: row.kitRevision && `${row.kitRevision.kit.name}, rev ${row.kitRevision.revision}`,
      vehicle: row.vehicle ? vehicleName(row.vehicle) : row.vehicleWords,
      leader: leader && row.leaderProbability !== null ? { name: leader.name, part: leader.part, attribution: leader.attribution, probability: row.leaderProbability } : null,
      unitDefective: row.unitProbability,
      promisedAt: place.promisedAt,
      assignedTo: row.assignedTo && { name: row.assignedTo.name, isMe: row.assignedTo.id === actor.personId },
      note: note && note.to === row.assignedTo?.id ? note : null,
      others: present.get(row.id) ?? [],
    };
  });
}
