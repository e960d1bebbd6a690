import "server-only";
import type { DispositionKind } from "@/lib/domain/claims/dispositions";
import { serialAwaited } from "@/lib/domain/claims/serials";
import { type Db, database } from "./client";
import { moveReturn } from "./move-return";

const MAKER = { select: { supplier: { select: { name: true, address: true } } } } as const;

const STATES_HERE = ["received", "on_the_bench", "dispositioned"] as const;

/** The unit of a claim that came in last, with what speaks for or against a disposition; null when none ever came. */
export async function findUnitToDispose(claimId: string, db: Db = database()) {
  const row = await db.return.findFirst({
    where: { claimId, state: { in: [...STATES_HERE] } },
    orderBy: [{ receivedAt: "desc" }, { id: "desc" }],
    select: {
      id: true,
      number: true,
      state: true,
      inspections: { select: { inspectedAt: true } },
      parcel: { select: { handovers: { orderBy: { number: "desc" }, take: 1, select: { to: { select: { name: true } } } } } },
      dispositions: { orderBy: { decidedAt: "desc" }, select: { id: true, kind: true, reason: true, keepUntil: true, decidedAt: true, supersededAt: true, decidedBy: { select: { name: true } } } },
      claim: { select: { reference: true, unit: { select: { serial: true, turboModel: MAKER } }, kitRevision: { select: { kit: { select: { turboModel: MAKER } } } }, serial: true, verdicts: { where: { supersededAt: null }, select: { attribution: true } } } },
    },
  });
  return (
    row && {
      returnId: row.id,
      number: row.number,
      reference: row.claim.reference,
      serial: row.claim.unit?.serial ?? row.claim.serial,
      place: row.parcel?.handovers[0]?.to.name ?? null,
      /** Who makes such units, and where one sent to them goes. */
      maker: (row.claim.unit?.turboModel ?? row.claim.kitRevision?.kit.turboModel)?.supplier ?? null,
      isInspected: row.inspections.some(({ inspectedAt }) => inspectedAt !== null),
      isBeingInspected: row.inspections.some(({ inspectedAt }) => inspectedAt === null),
      attribution: row.claim.verdicts[0]?.attribution ?? null,
      dispositions: row.dispositions,
    }
  );
}
export type UnitToDisposeOf = NonNullable<Awaited<ReturnType<typeof findUnitToDispose>>>;

export interface DispositionToInsert {
  returnId: string;
  kind: DispositionKind;
  reason: string;
  keepUntil: Date | null;
  decidedById: string;
  decidedAt: Date;
}

/** Keeps a disposition in place of the one that stands. Ask with the claim locked. */
export async function insertDisposition(db: Db, added: DispositionToInsert): Promise<void> {
  await db.disposition.updateMany({ where: { returnId: added.returnId, supersededAt: null }, data: { supersededAt: added.decidedAt } });
  await db.disposition.create({ data: added });
  // A later decision finds it dispositioned already.
  await moveReturn(db, added.returnId, "disposition");
}

const HELD = { kind: "held_as_evidence", supersededAt: null } as const;

/** Units held as evidence, those whose day comes first first, and how many there are in all and past their day. */
export async function listEvidence(today: Date) {
  const db = database();
  const [rows, count, past] = await Promise.all([
    db.disposition.findMany({
      where: HELD,
      orderBy: [{ keepUntil: "asc" }, { id: "asc" }],
      take: 200,
      select: {
        keepUntil: true,
        return: {
          select: {
            claimId: true,
            number: true,
            serialSeen: true,
            claim: { select: { reference: true, stage: true, serial: true, otherSerial: true, unit: { select: { serial: true } } } },
            parcel: { select: { handovers: { orderBy: { number: "desc" }, take: 1, select: { to: { select: { name: true } } } } } },
          },
        },
      },
    }),
    db.disposition.count({ where: HELD }),
    db.disposition.count({ where: { ...HELD, keepUntil: { lt: today } } }),
  ]);
  const held = rows.map(({ keepUntil, return: { claimId, number, serialSeen, claim, parcel } }) => ({
    claimId,
    number,
    reference: claim.reference,
    stage: claim.stage,
    serial: serialSeen ?? serialAwaited(claim),
    place: parcel?.handovers[0]?.to.name ?? null,
    keepUntil,
    isPast: keepUntil !== null && keepUntil < today,
  }));
  return { held, count, past };
}
