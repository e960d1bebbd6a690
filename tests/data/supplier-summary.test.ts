import { randomUUID } from "node:crypto";
import sharp from "sharp";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { refreshReportCells } from "@/lib/data/report-cells";
import { makeReference } from "@/lib/domain/claims/reference";
import { putObject } from "@/lib/files/store";
import { supplierSummarySchema } from "@/lib/inputs/supplier-summary";
import { loadSupplierMatter, writeSupplierSummary } from "@/lib/operations/supplier-summary";
import { aStaffActor } from "@/tests/builders/a-person";
import { readPdf } from "@/tests/builders/pdf-text";

const CLAIMS = 30;
const kit = `KS-${randomUUID().slice(0, 6)}`;
const CUSTOMERS = Array.from({ length: CLAIMS }, (_, index) => ({
  contactName: `Quillon Marwood ${index}`,
  contactEmail: `quillon.${index}@marwood.example`,
  contactPhone: `+00 555 77${String(index).padStart(3, "0")}`,
  description: `It pours out below, says my neighbour Brambledon ${index}`,
  reference: makeReference(crypto.getRandomValues(new Uint8Array(64))),
}));
const MESSAGE = "Please call me at the Foxglove garage after six";
const ids = { claims: [] as string[], photo: randomUUID() };
let product: StaffActor;

const input = (more: object = {}) => supplierSummarySchema.parse({ from: "2026-01", to: "2026-03", kit, paper: "A4", supplier: "Ostvik Castings", ask: "Tell us how the seal rings are gauged: ≥ 0.2 mm, Łódź works, \u{1f600}.", photos: [], ...more });

beforeAll(async () => {
  product = await aStaffActor("product");
  const db = database();
  const turbo = await db.turboModel.create({ data: { code: kit, name: "Turbo", bearing: "journal", axialPlayMinMm: 0.03, axialPlayMaxMm: 0.09, radialPlayMaxMm: 0.45, drainBoreMm: 13, supplier: { create: { code: kit, name: "Ostvik Castings", email: "ostvik@example.com" } } } });
  const revision = await db.kitRevision.create({ data: { revision: "A", introducedOn: new Date("2025-12-01"), kit: { create: { code: kit, name: "Kit", turboModelId: turbo.id } } } });
  const order = await db.order.create({ data: { number: `SUPPLY-${kit}`, customerEmail: "order@marwood.example", customerName: "Theodora Marwood", country: "DE", placedOn: new Date("2026-01-02") } });
  for (const [index, customer] of CUSTOMERS.entries()) {
    const unit = await db.unit.create({ data: { serial: `${kit}-${index}`, batch: "B-77", turboModelId: turbo.id } });
    const shipment = await db.shipment.create({ data: { orderId: order.id, kitRevisionId: revision.id, unitId: unit.id, shippedOn: new Date("2026-01-15") } });
    const now = new Date("2026-03-01T10:00:00Z");
    const claim = await db.claim.create({
      data: { ...customer, filingKey: randomUUID(), stage: "decided", filedBy: "customer", filedAt: new Date("2026-02-20T10:00:00Z"), promisedAt: now, firstAnswerAt: now, decidedAt: now, shipmentId: shipment.id, unitId: unit.id, kitRevisionId: revision.id, orderNumber: order.number },
    });
    ids.claims.push(claim.id);
    await db.verdict.create({ data: { claimId: claim.id, primaryCause: "C15", contributingCauses: [], attribution: "unit", way: "overruled", reason: `As ${customer.contactName} said`, basis: "bench", remedy: "replacement", letter: `Dear ${customer.contactName}`, decidedById: product.personId, decidedAt: now } });
    await db.message.create({ data: { claimId: claim.id, from: "customer", body: MESSAGE } });
    await db.finding.create({ data: { claimId: claim.id, code: "F45", observer: "bench", answer: "present", note: `Note on ${customer.contactName}` } });
    await db.finding.create({ data: { claimId: claim.id, code: "F41", observer: "bench", measured: 0.08 + index / 1000, typedValue: "0.1", typedUnit: "mm", note: "" } });
  }
  const key = `claims/${ids.claims[0]}/photo-1`;
  const jpeg = await sharp({ create: { width: 60, height: 40, channels: 3, background: "#888" } }).withExif({ IFD0: { Artist: "Quillon Marwood" } }).jpeg().toBuffer();
  await putObject(key, jpeg, "image/jpeg");
  await db.photo.create({ data: { id: ids.photo, claimId: ids.claims[0] ?? "", subject: "unit", storageKey: key, width: 60, height: 40, bytes: jpeg.length, sha256: "a".repeat(64), takenBy: "bench" } });
  await refreshReportCells();
});

describe("the summary for a supplier", () => {
  test("offers the names of those who make what it is about", async () => {
    await database().supplier.create({ data: { code: `${kit}-2`, name: "Makes nothing of it", email: "other@example.com" } });
    expect(await loadSupplierMatter(product, { from: "2026-01", to: "2026-03", kit })).toMatchObject({ ok: true, makers: ["Ostvik Castings"] });
  });

  test.each([["A4", "595.28 841.89"], ["LETTER", "612 792"]])("tells the evidence on %s and nothing of any customer", async (paper, box) => {
    const written = await writeSupplierSummary(product, input({ paper, photos: [ids.photo], looked: "yes" }));
    if (!written.ok) throw new Error(written.reason);
    const { text, rest } = readPdf(written.pdf);
    const flat = text.replace(/\s+/g, " ");
    // What must be there, so that a reader who sees nothing fails.
    for (const said of [kit, "What was seen", "30 units were on our bench", "Off its groove, broken or wrong", "0.03 to 0.09 mm", `${kit}-0`, `${kit}-29`, "B-77", "Tell us how the seal rings", ">= 0.2 mm", "Ostvik Castings"]) expect(flat).toContain(said);
    expect(flat).toMatch(/ 2 \/ [2-9]\b/);
    // Signs of another file of the font stand in runs of their own.
    expect(text.replace(/\s+/g, "")).toContain("Łódźworks,?.");
    expect(flat).not.toContain("\ufffd");
    expect(rest).toContain(`${kit}: what was found`);
    const raw = written.pdf.toString("latin1");
    expect(raw).toContain(`/MediaBox [0 0 ${box}]`);
    expect(raw).toMatch(/\/Lang \(en-GB\)/);
    expect(raw).toContain("/MarkInfo");
    const everything = [flat, text.replace(/\s+/g, ""), rest, raw].join("\n").toLowerCase();
    for (const { contactName, contactEmail, contactPhone, description, reference } of CUSTOMERS)
      for (const secret of [contactName, contactEmail, contactPhone, description, reference]) {
        expect(everything).not.toContain(secret.toLowerCase());
        expect(everything).not.toContain(secret.replace(/\s+/g, "").toLowerCase());
      }
    for (const secret of [MESSAGE, "Marwood", "Brambledon", "Foxglove", `SUPPLY-${kit}`]) expect(everything).not.toContain(secret.toLowerCase());
  });

  test.each(["Ask Quillon Marwood 3 about it", "quillon.4@MARWOOD.example wrote", `see ${CUSTOMERS[0]?.reference}`, `order supply-${kit}`])("refuses a text that gives a customer away: %s", async (ask) => {
    expect(await writeSupplierSummary(product, input({ ask }))).toEqual({ ok: false, reason: "names-a-customer" });
  });

  test("takes no photo of another claim, none that nobody looked at, and no choice without a kit or a batch", async () => {
    expect(await writeSupplierSummary(product, input({ photos: [randomUUID()], looked: "yes" }))).toEqual({ ok: false, reason: "unknown-photo" });
    expect(supplierSummarySchema.safeParse({ from: "2026-01", to: "2026-03", kit, paper: "A4", supplier: "", ask: "x", photos: [ids.photo] }).success).toBe(false);
    expect(await writeSupplierSummary(product, input({ kit: undefined }))).toEqual({ ok: false, reason: "too-wide" });
    expect(await writeSupplierSummary(product, input({ from: "2026-03" }))).toEqual({ ok: false, reason: "nothing-decided" });
  });

  test("is for product managers and administrators", async () => {
    expect(await writeSupplierSummary(await aStaffActor("support"), input())).toEqual({ ok: false, reason: "not-allowed" });
  });
});
