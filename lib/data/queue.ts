import "server-only";
import type { QueueSort } from "@/lib/domain/claims/queue-order";
import { parseReference } from "@/lib/domain/claims/reference";
import { type ClaimStage, QUEUE_STAGES } from "@/lib/domain/claims/stages";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { database } from "./client";
import type { Prisma } from "./generated/client";

export interface QueueQuestion {
  stage: ClaimStage | "open" | "ended";
  sort: QueueSort;
  /** From 1. */
  page: number;
  kit?: string | undefined;
  who?: "mine" | "nobody" | undefined;
  /** Searched for in reference, serial, order number, name and e-mail address. */
  q?: string | undefined;
}

const OPEN: Prisma.ClaimWhereInput = { stage: { in: [...QUEUE_STAGES] } };

/** The same order as `byRisk`. */
const BY_RISK: Prisma.ClaimOrderByWithRelationInput[] = [{ stopsEngine: "desc" }, { firstAnswerAt: { sort: "asc", nulls: "first" } }, { promisedAt: "asc" }];

const ORDERS: Readonly<Record<QueueSort, Prisma.ClaimOrderByWithRelationInput[]>> = {
  risk: BY_RISK,
  promised: [{ promisedAt: "asc" }],
  newest: [{ filedAt: "desc" }],
  unit: [{ unitProbability: { sort: "desc", nulls: "last" } }],
  leader: [{ leaderProbability: { sort: "desc", nulls: "last" } }],
};

function matching({ stage, kit, who, q }: QueueQuestion, personId: string, leaders: readonly CauseCode[] | null): Prisma.ClaimWhereInput {
  // What stands for any sign in a search is meant as typed.
  const contains = (words: string) => ({ contains: words.replace(/[\\%_]/g, "\\$&"), mode: "insensitive" as const });
  return {
    AND: [
      stage === "open" ? OPEN : stage === "ended" ? { stage: { notIn: [...QUEUE_STAGES, "draft"] } } : { stage },
      kit ? { kitRevision: { kit: { code: kit } } } : {},
      who === "mine" ? { assignedToId: personId } : who === "nobody" ? { assignedToId: null } : {},
      leaders ? { leaderCause: { in: [...leaders] } } : {},
      q
        ? {
            OR: [
              { reference: parseReference(q) ?? contains(q) },
              { serial: contains(q) },
              { orderNumber: contains(q) },
              { contactName: contains(q) },
              { contactEmail: contains(q) },
            ],
          }
        : {},
    ],
  };
}

/**
 * One page of the queue and how many there are in all.
 *
 * @param leaders the causes one of which must lead, or null for any
 */
export async function listQueue(filter: QueueQuestion, personId: string, leaders: readonly CauseCode[] | null, perPage: number) {
  const where = matching(filter, personId, leaders);
  const [total, rows] = await Promise.all([
    database().claim.count({ where }),
    database().claim.findMany({
      where,
      orderBy: [...ORDERS[filter.sort], { id: "asc" }],
      skip: (filter.page - 1) * perPage,
      take: perPage,
      select: {
        id: true,
        reference: true,
        stage: true,
        stopsEngine: true,
        filedAt: true,
        promisedAt: true,
        firstAnswerAt: true,
        leaderCause: true,
        leaderProbability: true,
        unitProbability: true,
        vehicleWords: true,
        vehicle: true,
        kitRevision: { select: { revision: true, kit: { select: { code: true, name: true } } } },
        assignedTo: { select: { id: true, name: true } },
      },
    }),
  ]);
  return { total, rows };
}

/** How many claims wait, how many of them without an answer past the promised time, and how many engines must stand still. */
export async function countWaiting(now: Date): Promise<{ waiting: number; late: number; mustStandStill: number }> {
  const count = (more: Prisma.ClaimWhereInput) => database().claim.count({ where: { AND: [OPEN, more] } });
  const [waiting, late, mustStandStill] = await Promise.all([count({}), count({ firstAnswerAt: null, promisedAt: { lt: now } }), count({ stopsEngine: true })]);
  return { waiting, late, mustStandStill };
}

/** The claim after this one in the plain queue, and this one's place there; from the head when it is not in it, place 0. */
export async function findNextInQueue(claimId: string): Promise<{ next: string | null; place: number; of: number }> {
  const ids = (await database().claim.findMany({ where: OPEN, orderBy: [...BY_RISK, { id: "asc" }], select: { id: true } })).map(({ id }) => id);
  const place = ids.indexOf(claimId);
  return { next: ids.filter((id) => id !== claimId)[Math.max(0, place)] ?? null, place: place + 1, of: ids.length };
}

export function listKits() {
  return database().kit.findMany({ orderBy: { code: "asc" }, select: { code: true, name: true } });
}
