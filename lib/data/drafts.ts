import "server-only";
import type { Language } from "@/lib/domain/claims/languages";
import type { UnitSystem } from "@/lib/domain/claims/unit-systems";
import type { IntakeAnswers } from "@/lib/domain/intake/answers";
import type { KnownPurchase } from "@/lib/domain/intake/questions";
import { type Db, database } from "./client";
import { discardObjects } from "./discarded-objects";
import { deleteUploads } from "./photo-uploads";
import { pictureKeys } from "./photos";

export interface Draft {
  id: string;
  reference: string;
  version: number;
  createdAt: Date;
  answers: IntakeAnswers;
  purchase: KnownPurchase;
  kitRevisionId: string | null;
  shipmentId: string | null;
  unitId: string | null;
  unit: { serial: string } | null;
}

/** The kits of compound pairs. */
const OF_PAIRS = { kit: { turboModel: { staging: { not: "single" } } } } as const;

const WITH_PURCHASE = {
  id: true,
  reference: true,
  version: true,
  createdAt: true,
  answers: true,
  shipmentId: true,
  unitId: true,
  unit: { select: { serial: true } },
  kitRevisionId: true,
  kitRevision: { select: { kitId: true, kit: { select: { turboModel: { select: { staging: true } } } } } },
  vehicleId: true,
  vehicle: { select: { fuel: true, fitments: { where: OF_PAIRS, take: 1, select: { kitId: true } } } },
} as const;

export async function insertDraft(db: Db, draft: { reference: string; filingKey: string; language: Language; units: UnitSystem; answers: IntakeAnswers }): Promise<{ id: string }> {
  return db.claim.create({ data: draft, select: { id: true } });
}

/** The draft that a browser began with this filing key, or the claim it has become; null when there is none. */
export function findClaimByFilingKey(filingKey: string) {
  return database().claim.findUnique({ where: { filingKey }, select: { id: true, reference: true, stage: true, createdAt: true } });
}

/** The draft with what its purchase tells, or null once it is filed. */
export async function findDraft(claimId: string, db: Db = database()): Promise<Draft | null> {
  const row = await db.claim.findFirst({ where: { id: claimId, stage: "draft" }, select: WITH_PURCHASE });
  if (!row) return null;
  const answers = row.answers as IntakeAnswers;
  return {
    ...row,
    answers,
    purchase: {
      kitId: row.kitRevision?.kitId ?? null,
      vehicleId: row.vehicleId,
      fuel: row.vehicle?.fuel ?? null,
      staging: row.kitRevision?.kit.turboModel?.staging ?? null,
      vehicleTakesPairs: (row.vehicle?.fitments.length ?? 0) > 0,
      matchingShipments: Number(answers.order?.matches ?? 0),
    },
  };
}

/** Removes these drafts with their photos, also those on their way; one that was filed meanwhile stays. Returns how many there were. */
export async function deleteDrafts(db: Db, claimIds: readonly string[]): Promise<number> {
  // Locked first, so that none is filed, or gets another photo, between here and its end.
  const drafts = await db.$queryRaw<{ id: string }[]>`SELECT id FROM claim WHERE id = ANY(${[...claimIds]}::uuid[]) AND stage = 'draft' ORDER BY id FOR UPDATE`;
  const ids = drafts.map(({ id }) => id);
  const photos = await db.photo.findMany({ where: { claimId: { in: ids } }, select: { storageKey: true } });
  const pieces = await deleteUploads(db, { claimId: { in: ids } });
  await db.claim.deleteMany({ where: { id: { in: ids } } });
  await discardObjects(db, [...photos.flatMap(({ storageKey }) => pictureKeys(storageKey)), ...pieces]);
  return ids.length;
}

export interface DraftChanges {
  answers?: IntakeAnswers;
  shipmentId?: string | null;
  unitId?: string | null;
  kitRevisionId?: string | null;
  vehicleId?: string | null;
}

/** Saves a draft that nobody has saved or filed since it was read; false when somebody has. */
export async function updateDraft(db: Db, draft: Pick<Draft, "id" | "version">, changes: DraftChanges): Promise<boolean> {
  const { count } = await db.claim.updateMany({ where: { id: draft.id, stage: "draft", version: draft.version }, data: { ...changes, version: { increment: 1 } } });
  return count === 1;
}

/** Begins a draft that staff take down for a caller; one with the same filing key is the same draft. */
export async function insertCall(db: Db, call: { reference: string; filingKey: string; language: Language; takenDownById: string; answers: IntakeAnswers } & DraftChanges): Promise<{ id: string }> {
  return db.claim.create({ data: call, select: { id: true } });
}

/** The language of a draft that staff took down; null for a customer's own draft, which no staff may see, and once it is filed. */
export async function findCall(claimId: string): Promise<{ language: Language; isFiled: boolean } | null> {
  const call = await database().claim.findFirst({ where: { id: claimId, takenDownById: { not: null } }, select: { language: true, stage: true } });
  return call && { language: call.language, isFiled: call.stage !== "draft" };
}

/** The calls a person has begun and not filed, the newest first. */
export async function listOpenCalls(personId: string): Promise<{ id: string; createdAt: Date; answers: IntakeAnswers }[]> {
  const calls = await database().claim.findMany({ where: { takenDownById: personId, stage: "draft" }, orderBy: { createdAt: "desc" }, take: 10, select: { id: true, createdAt: true, answers: true } });
  return calls.map((call) => ({ ...call, answers: call.answers as IntakeAnswers }));
}
