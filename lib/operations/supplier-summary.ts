import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { database } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { listClaimsBehind } from "@/lib/data/claims-behind";
import { loadSettings } from "@/lib/data/settings";
import { listConfirmedPhotos, listIdentities, listMakers, listSupplierCases } from "@/lib/data/supplier-summary";
import type { FindingDefinition, Observer } from "@/lib/domain/diagnosis/knowledge";
import { revisionsOf } from "@/lib/domain/reporting/causes-of-a-selection";
import { givesAway, type SupplierCase } from "@/lib/domain/reporting/supplier-summary";
import { supplierSummaryPdf } from "@/lib/files/pdf-supplier-summary";
import { pictureForPrint } from "@/lib/files/pdf-picture";
import { getObject } from "@/lib/files/store";
import type { SupplierSelection, SupplierSummaryInput } from "@/lib/inputs/supplier-summary";
import type { UnknownInFilter } from "./check-report-filter";
import { type LoadedSelection, loadCausesOfASelection } from "./load-causes-of-a-selection";
import { auditActor, type Refusal, refuse } from "./refusal";

/** So many cases are listed one by one, the newest; counts and rates are of all. */
const MOST_CASES = 200;
const MOST_PHOTOS_OFFERED = 24;

export type NoSummary = Refusal | UnknownInFilter | { ok: false; reason: "too-wide" | "nothing-decided" };

export interface SupplierMatter {
  ok: true;
  selection: LoadedSelection;
  /** As the edition in force has them. */
  findings: readonly FindingDefinition[];
  cases: readonly SupplierCase[];
  photos: readonly { id: string; claimId: string; subject: string; takenBy: Observer }[];
  seller: string;
  /** Who makes what these cases are about, as far as the catalogue says. */
  makers: readonly string[];
}

/** What a summary for a supplier would tell, with the photos there are to choose from. */
export async function loadSupplierMatter(actor: StaffActor, filter: SupplierSelection): Promise<SupplierMatter | NoSummary> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  const gathered = await gather(actor, filter);
  return gathered.ok ? gathered.matter : gathered;
}

export type WrittenSummary = { ok: true; pdf: Buffer; name: string } | NoSummary | { ok: false; reason: "names-a-customer" | "unknown-photo" };

/** The summary as a PDF. A text that names a customer of these claims is refused, and photos are encoded anew. */
export async function writeSupplierSummary(actor: StaffActor, { paper, supplier, ask, photos, looked: _, ...filter }: SupplierSummaryInput, now: Date = new Date()): Promise<WrittenSummary> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  const gathered = await gather(actor, filter);
  if (!gathered.ok) return gathered;
  const { matter, claimIds, photoKeys } = gathered;
  if (givesAway(`${supplier}\n${ask}`, await listIdentities(claimIds)) !== null) return { ok: false, reason: "names-a-customer" };
  const pictures: { jpeg: Buffer; subject: string }[] = [];
  for (const photoId of photos) {
    const photo = matter.photos.find(({ id }) => id === photoId);
    const bytes = photo && (await getObject(photoKeys.get(photoId) ?? ""));
    if (!photo || !bytes) return { ok: false, reason: "unknown-photo" };
    pictures.push({ jpeg: await pictureForPrint(bytes), subject: photo.subject });
  }
  const pdf = await supplierSummaryPdf({ filter, report: matter.selection.report, catalogue: matter.selection.catalogue, causes: matter.selection.causes, findings: matter.findings, cases: matter.cases, seller: matter.seller, supplier, ask, pictures, paper, today: matter.selection.today, now });
  const { kit = null, batch = null, cause = null } = filter;
  await appendAudit(database(), { actor: auditActor(actor), action: "write_supplier_summary", detail: { kit, batch, cause, cases: matter.cases.length, photos: photos.length } });
  return { ok: true, pdf, name: ["supplier-summary", kit ?? batch, cause, matter.selection.today].filter(Boolean).join("-").replace(/[^\w-]+/g, "-") };
}

/** Everything about the decided claims of the selection. */
async function gather(actor: StaffActor, filter: SupplierSelection) {
  if (filter.kit === undefined && filter.batch === undefined) return { ok: false, reason: "too-wide" } as const;
  const [selection, { findings }, { name: seller, timeZone }] = await Promise.all([loadCausesOfASelection(actor, { ...filter, outcome: "decided" }), loadEditionInForce(), loadSettings()]);
  if (!selection.ok) return selection;
  const kitRevisionIds = filter.kit === undefined && filter.revision === undefined ? undefined : revisionsOf(selection.catalogue, filter).map(({ revision }) => revision.id);
  const { claims } = await listClaimsBehind({ ...filter, kitRevisionIds, outcome: "decided", role: "primary", isUnmatched: false, timeZone }, { skip: 0, take: MOST_CASES });
  const claimIds = claims.map(({ id }) => id);
  const [cases, photos, makers] = await Promise.all([listSupplierCases(claims), listConfirmedPhotos(claimIds, MOST_PHOTOS_OFFERED), listMakers(claimIds)]);
  if (cases.length === 0) return { ok: false, reason: "nothing-decided" } as const;
  const matter: SupplierMatter = { ok: true, selection, findings, cases, seller, makers, photos: photos.map(({ id, claimId, subject, takenBy }) => ({ id, claimId, subject, takenBy })) };
  return { ok: true, matter, claimIds, photoKeys: new Map(photos.map(({ id, storageKey }) => [id, storageKey])) } as const;
}
