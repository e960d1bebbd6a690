import "server-only";
import type { SupplierCase } from "@/lib/domain/reporting/supplier-summary";
import { decisiveFinding } from "@/lib/domain/reporting/supplier-summary";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";
import { database } from "./client";

const LIMITS = { select: { axialPlayMinMm: true, axialPlayMaxMm: true, radialPlayMaxMm: true } } as const;

/** These claims as a supplier may know them, in the order of filing. A claim whose verdict no longer stands is left out. */
export async function listSupplierCases(claims: readonly { id: string; monthInService: number | null }[]): Promise<SupplierCase[]> {
  const months = new Map(claims.map(({ id, monthInService }) => [id, monthInService]));
  const rows = await database().claim.findMany({
    where: { id: { in: [...months.keys()] } },
    orderBy: [{ filedAt: "asc" }, { id: "asc" }],
    select: {
      id: true,
      unit: { select: { serial: true, batch: true, turboModel: LIMITS } },
      shipment: { select: { shippedOn: true } },
      findings: { where: { observer: "bench", replacedAt: null }, orderBy: { code: "asc" }, select: { code: true, answer: true, measured: true } },
      verdicts: { where: { supersededAt: null }, select: { primaryCause: true, attribution: true, origin: true, ranking: { select: { result: true } } } },
    },
  });
  return rows.flatMap(({ id, unit, shipment, findings, verdicts: [verdict] }): SupplierCase[] => {
    if (!verdict) return [];
    // Only rankings made by `rankCauses` are ever stored.
    const ranking = verdict.ranking && (verdict.ranking.result as unknown as Ranking);
    return [
      {
        serial: unit?.serial ?? null,
        batch: unit?.batch ?? null,
        shippedOn: shipment?.shippedOn ?? null,
        monthInService: months.get(id) ?? null,
        cause: verdict.primaryCause,
        attribution: verdict.attribution,
        origin: verdict.origin,
        bench: findings,
        limits: unit?.turboModel ?? null,
        decisive: decisiveFinding(ranking, verdict.primaryCause),
      },
    ];
  });
}

/** Photos of these claims that staff have looked at: the bench's own, and those of a claim decided on a photo or a technician's look. */
export function listConfirmedPhotos(claimIds: readonly string[], most: number) {
  return database().photo.findMany({
    where: { claimId: { in: [...claimIds] }, OR: [{ takenBy: "bench" }, { claim: { verdicts: { some: { supersededAt: null, basis: { in: ["photo", "technician", "bench"] } } } } }] },
    orderBy: [{ takenBy: "desc" }, { createdAt: "desc" }, { id: "asc" }],
    take: most,
    select: { id: true, claimId: true, subject: true, takenBy: true, storageKey: true },
  });
}

/** Who makes the units and the kits' parts that these claims are about, by name. */
export async function listMakers(claimIds: readonly string[]): Promise<string[]> {
  const ofClaims = { claims: { some: { id: { in: [...claimIds] } } } };
  const makes = { OR: [{ turboModels: { some: { units: { some: ofClaims } } } }, { kits: { some: { revisions: { some: ofClaims } } } }] };
  return (await database().supplier.findMany({ where: makes, orderBy: { name: "asc" }, select: { name: true } })).map(({ name }) => name);
}

/** What tells whose these claims are, to look for in a text that goes out. */
export async function listIdentities(claimIds: readonly string[]): Promise<string[]> {
  const rows = await database().claim.findMany({
    where: { id: { in: [...claimIds] } },
    select: { reference: true, contactName: true, contactEmail: true, contactPhone: true, orderNumber: true, shipment: { select: { order: { select: { number: true, customerName: true, customerEmail: true } } } } },
  });
  return rows.flatMap(({ shipment, ...claim }) => [...Object.values(claim), ...Object.values(shipment?.order ?? {})].filter((value) => value !== null));
}
