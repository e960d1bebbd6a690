import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadEditionInForce } from "@/lib/data/editions";
import { listKits, vehicleName } from "@/lib/data/purchases";
import { countWaiting, listQueue } from "@/lib/data/queue";
import { loadSettings } from "@/lib/data/settings";
import { ENDED, isLate, reasonForPlace, wroteInWords } from "@/lib/domain/claims/queue-order";
import { isContested } from "@/lib/domain/claims/verdict";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Attribution } from "@/lib/domain/diagnosis/attributions";
import type { OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import type { QueueFilter } from "@/lib/inputs/queue-filter";
import { type Refusal, refuse } from "./refusal";

export interface QueueRow {
  id: string;
  reference: string;
  stage: ClaimStage;
  reason: string;
  /** That the customer wrote and nobody has answered, in words. */
  wrote: string | null;
  isLate: boolean;
  stopsEngine: boolean;
  kit: string | null;
  vehicle: string | null;
  leader: { name: string; part: OilPathPart; attribution: Attribution; probability: number } | null;
  unitDefective: number | null;
  promisedAt: Date;
  assignedTo: { name: string; isMe: boolean } | null;
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
  timeZone: string;
}

const PER_PAGE = 50;

/** One page of the queue, each claim with the reason for its place. */
export async function loadQueue(actor: StaffActor, filter: QueueFilter, now: Date = new Date()): Promise<Queue | Refusal> {
  const refused = await refuse(actor, "see the queue");
  if (refused) return refused;
  const edition = await loadEditionInForce();
  const leaders = filter.attribution ? edition.causes.filter(({ attribution }) => attribution === filter.attribution).map(({ code }) => code) : null;
  const [{ total, rows }, counts, kits, { timeZone }] = await Promise.all([listQueue(filter, actor.personId, leaders, PER_PAGE), countWaiting(now), listKits(), loadSettings()]);
  return {
    ok: true,
    total,
    pages: Math.max(1, Math.ceil(total / PER_PAGE)),
    ...counts,
    kits,
    timeZone,
    rows: rows.map((row) => {
      const leader = edition.causes.find(({ code }) => code === row.leaderCause);
      // A claim that was filed has a promised time: the database asks for it.
      const place = { stage: row.stage, stopsEngine: row.stopsEngine, promisedAt: row.promisedAt ?? now, firstAnswerAt: row.firstAnswerAt, wroteAt: row.wroteAt };
      const reason = reasonForPlace(place, now);
      return {
        id: row.id,
        reference: row.reference,
        stage: row.stage,
        reason,
        wrote: wroteInWords({ ...place, isContested: isContested(row.verdicts) }, now),
        isLate: reason !== ENDED && isLate(place, now),
        stopsEngine: row.stopsEngine && reason !== ENDED,
        kit: row.kitRevision && `${row.kitRevision.kit.name}, rev ${row.kitRevision.revision}`,
        vehicle: row.vehicle ? vehicleName(row.vehicle) : row.vehicleWords,
        leader: leader && row.leaderProbability !== null ? { name: leader.name, part: leader.part, attribution: leader.attribution, probability: row.leaderProbability } : null,
        unitDefective: row.unitProbability,
        promisedAt: place.promisedAt,
        assignedTo: row.assignedTo && { name: row.assignedTo.name, isMe: row.assignedTo.id === actor.personId },
      };
    }),
  };
}
