import "server-only";
import { QUEUE_STAGES } from "@/lib/domain/claims/stages";
import { type Db, database } from "./client";
import type { Prisma } from "./generated/client";

const PHOTOS = { orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true, subject: true, takenBy: true, createdAt: true, width: true, height: true } } satisfies Prisma.PhotoFindManyArgs;

/** A filed claim with all that staff may see; what a role may not see is left out by the operation. */
export function findClaimForStaff(claimId: string) {
  return database().claim.findFirst({
    where: { id: claimId, stage: { not: "draft" } },
    include: {
      vehicle: true,
      unit: { select: { serial: true, batch: true, turboModel: { select: { name: true } } } },
      shipment: { select: { shippedOn: true } },
      kitRevision: { select: { revision: true, kit: { select: { code: true, name: true } } } },
      fitter: { select: { name: true, place: true } },
      assignedTo: { select: { id: true, name: true } },
      mergedInto: { select: { id: true, reference: true } },
      checkRequests: { orderBy: { askedAt: "asc" }, include: { askedBy: { select: { name: true } } } },
      messages: { orderBy: { createdAt: "asc" }, include: { person: { select: { name: true } } } },
      photos: PHOTOS,
      mergedClaims: {
        orderBy: { filedAt: "asc" },
        select: { id: true, reference: true, filedBy: true, filedAt: true, contactName: true, language: true, description: true, photos: PHOTOS, messages: { orderBy: { createdAt: "asc" }, include: { person: { select: { name: true } } } } },
      },
      returns: { where: { state: { in: ["authorised", "in_carriage", "received", "on_the_bench"] } }, select: { number: true } },
      auditEntries: { where: { action: { not: "refused" } }, orderBy: { id: "asc" }, include: { person: { select: { name: true } } } },
    },
  });
}

/** What an act on a filed claim needs to know of it; null for a draft, which is nobody's but the customer's. */
export function findClaimToActOn(claimId: string, db: Db = database()) {
  return db.claim.findFirst({
    where: { id: claimId, stage: { not: "draft" } },
    select: {
      id: true,
      reference: true,
      stage: true,
      version: true,
      filedBy: true,
      contactName: true,
      contactEmail: true,
      language: true,
      units: true,
      serial: true,
      pairUnit: true,
      mergedIntoId: true,
      firstAnswerAt: true,
      assignedToId: true,
      stopsEngine: true,
      vehicleWords: true,
      vehicle: true,
      kitRevision: { select: { kit: { select: { name: true, turboModel: { select: { replacementCost: true } } } } } },
      unit: { select: { turboModel: { select: { replacementCost: true } } } },
    },
  });
}
export type ClaimToActOn = NonNullable<Awaited<ReturnType<typeof findClaimToActOn>>>;

/**
 * Gives a claim to somebody, or to nobody, unless it has changed hands meanwhile.
 *
 * @returns whether it was still with `from`
 */
export async function updateAssignee(db: Db, claimId: string, from: string | null, to: string | null): Promise<boolean> {
  const { count } = await db.claim.updateMany({ where: { id: claimId, assignedToId: from }, data: { assignedToId: to } });
  return count === 1;
}

/** Gives an open claim that nobody has in hand to a person; false when it is somebody's, or has ended. */
export async function assignIfNobodys(db: Db, claimId: string, personId: string): Promise<boolean> {
  const { count } = await db.claim.updateMany({ where: { id: claimId, assignedToId: null, stage: { in: [...QUEUE_STAGES] } }, data: { assignedToId: personId } });
  return count === 1;
}

/** Puts every open claim of a person back for anybody; which ones. */
export async function releaseClaimsOf(db: Db, personId: string): Promise<string[]> {
  const released = await db.claim.updateManyAndReturn({ where: { assignedToId: personId, stage: { in: [...QUEUE_STAGES] } }, data: { assignedToId: null }, select: { id: true } });
  return released.map(({ id }) => id);
}

/** Keeps when staff first answered; a later answer changes nothing. */
export async function markFirstAnswer(db: Db, claimId: string, now: Date): Promise<void> {
  await db.claim.updateMany({ where: { id: claimId, firstAnswerAt: null }, data: { firstAnswerAt: now } });
}

/** People who can have a claim in hand. */
export function listDeskPeople() {
  return database().person.findMany({ where: { disabledAt: null, role: { in: ["support", "bench", "admin"] } }, orderBy: { name: "asc" }, select: { id: true, name: true } });
}
