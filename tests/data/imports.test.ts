import { spawn } from "node:child_process";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { typescript } from "@/lib/cli/processes.mjs";
import { connectionPool, database, inTransaction } from "@/lib/data/client";
import { lockImports } from "@/lib/data/imports";
import { refreshReportCells } from "@/lib/data/report-cells";
import { IMPORT_FILE_DAYS } from "@/lib/domain/imports/reading";
import { csvFile } from "@/lib/files/csv";
import { getObject } from "@/lib/files/store";
import { carryOutImports } from "@/lib/operations/carry-out-imports";
import { exportCatalogue } from "@/lib/operations/export-import-kind";
import { findMyPurchase } from "@/lib/operations/find-my-purchase";
import { exportImportProblems, loadImport, openImportFile } from "@/lib/operations/load-import";
import { purgeExpired } from "@/lib/data/purge";
import { startImport, takeBackImport } from "@/lib/operations/start-import";
import { uploadImport } from "@/lib/operations/upload-import";
import { aPostedFile, broughtIn, queued } from "@/tests/builders/a-file-of-figures";
import { aStaffActor } from "@/tests/builders/a-person";
import { removeDiscarded } from "@/tests/builders/discarded-objects";

let admin: StaffActor;

const SUPPLIERS = "Vendor,Name,E-mail,Address,Days\nSX-1,Example Works,Quality@Works.example,\"Works Lane 3, Hamburg\",45\nSX-2,Example Hose,claims@hose.example,,\n";
const MODELS = "Code;Name;Bearing;Stage;Axial play from, mm;Axial play to, mm;Radial play to, mm;Drain bore, mm;Cost of another one;Supplier\nTX40;Example 40;journal;;0,03;0,10;0,16;16;;SX-1\nTX50;Example 50;ball bearing;low pressure;0,04;0,13;0,18;19;612,5;\n";
const KITS = "Kit,Name,Turbo model,Revision,Introduced on,Change,Supplier\nKX-1,Fieldway kit,TX40,A,2024-01-15,First issue.,SX-2\nKX-1,Fieldway kit,TX40,B,2025-06-01,Longer drain line.,\nKX-2,Hoses,,A,2024-01-15,First issue.,\n";
const VEHICLES = "make,model,engine,fuel,year,to\nExamplar,Fieldway,2.4 D,diesel,2010,2016\nExamplar,Fieldway,3.0 D,Diesel,2015,\nExamplar,Fieldway,3.0 D,Diesel,2020,\n";
const FITMENTS = "SKU\tMake\tModel\tMotor\nKX-1\tExamplar\tFieldway\t2.4 D\n";
const HEADING = "Order,E-mail,Customer,Country,Shipped on,Kit,Revision,Serial,Batch,Make,Model,Engine";
const SHIPMENTS = `${HEADING}
X-1,Runa@Example.org,Runa,DE,2026-03-03,KX-1,,S-1,2603,Examplar,Fieldway,2.4 D
X-1,runa@example.org,Runa,de,2026-03-03,KX-2,,,,,,
X-1,runa@example.org,Runa,DE,2026-03-03,KX-2,A,,,,,
X-2,garage@example.com,"Garage, ""Nord""
and sons",NL,2025-02-01,KX-1,,S-2,2502,,,
`;

const counts = async () => ({ orders: await database().order.count(), units: await database().unit.count(), shipments: await database().shipment.count() });
const told = ({ problems }: { problems: readonly { line: number; field: string; problem: string; other: string }[] }) => problems.map(({ line, field, problem, other }) => [line, field, problem, other]);

beforeAll(async () => {
  admin = await aStaffActor("admin");
  for (const [kind, file] of [["suppliers", SUPPLIERS], ["turbo_models", MODELS], ["kits", KITS], ["vehicles", VEHICLES], ["fitments", FITMENTS]] as const) expect(await broughtIn(admin, kind, file)).toMatchObject({ state: "done", problems: [] });
});

describe("a file of the catalogue", () => {
  test("is taken in with a decimal comma, other separators and other headings", async () => {
    expect(await database().turboModel.findUniqueOrThrow({ where: { code: "TX50" } })).toMatchObject({ bearing: "ball", staging: "low_pressure", axialPlayMinMm: 0.04, drainBoreMm: 19, replacementCost: 612.5 });
    expect(await database().kit.findUniqueOrThrow({ where: { code: "KX-1" }, include: { revisions: true, fitments: true, turboModel: true } })).toMatchObject({ turboModel: { code: "TX40" }, revisions: [{}, {}], fitments: [{}] });
    expect(await database().supplier.findMany({ where: { code: { in: ["SX-1", "SX-2"] } }, orderBy: { code: "asc" }, include: { turboModels: true, kits: true } })).toMatchObject([
      { email: "quality@works.example", address: "Works Lane 3, Hamburg", answerWithinDays: 45, turboModels: [{ code: "TX40" }], kits: [] },
      { email: "claims@hose.example", address: "", answerWithinDays: 30, turboModels: [], kits: [{ code: "KX-1" }] },
    ]);
    expect(await database().vehicle.findMany({ where: { make: "Examplar" }, orderBy: { yearFrom: "asc" }, select: { yearFrom: true, yearTo: true, fuel: true } })).toEqual([
      { yearFrom: 2010, yearTo: 2016, fuel: "diesel" },
      { yearFrom: 2015, yearTo: null, fuel: "diesel" },
      { yearFrom: 2020, yearTo: null, fuel: "diesel" },
    ]);
  });

  test.each([["suppliers", SUPPLIERS, 2], ["turbo_models", MODELS, 2], ["kits", KITS, 3], ["vehicles", VEHICLES, 3], ["fitments", FITMENTS, 1]] as const)("of %s, sent a second time, is there already", async (kind, file, rows) => {
    expect(await broughtIn(admin, kind, file)).toMatchObject({ state: "done", rows, added: 0, changed: 0, alreadyThere: rows });
  });

  test.each(["suppliers", "turbo_models", "kits", "vehicles", "fitments"] as const)("of %s, as we send it out, comes in again without a change", async (kind) => {
    const exported = await exportCatalogue(admin, kind);
    if (!exported.ok) throw new Error(exported.reason);
    const rows = exported.table.rows.length;
    expect(rows).toBeGreaterThan(0);
    expect(await broughtIn(admin, kind, csvFile(exported.table))).toMatchObject({ state: "done", rows, alreadyThere: rows });
  });

  test("of a change in several lines, as we send it out, comes in again without a change", async () => {
    await database().kitRevision.updateMany({ where: { revision: "B", kit: { code: "KX-1" } }, data: { change: "Longer\ndrain line." } });
    const exported = await exportCatalogue(admin, "kits");
    expect(exported.ok && (await broughtIn(admin, "kits", csvFile(exported.table)))).toMatchObject({ state: "done", changed: 0, problems: [] });
    await database().kitRevision.updateMany({ where: { revision: "B", kit: { code: "KX-1" } }, data: { change: "Longer drain line." } });
  });

  test("that says otherwise is refused with what is kept, and taken over when that is chosen", async () => {
    const file = KITS.replace("Longer drain line.", "A longer drain line.").replaceAll("Fieldway kit", "New Fieldway kit");
    expect(told(await broughtIn(admin, "kits", file))).toEqual([
      [2, "name", "differs", "Fieldway kit"],
      [3, "change", "differs", "Longer drain line."],
      [3, "name", "differs", "Fieldway kit"],
    ]);
    expect(await broughtIn(admin, "kits", file, "update")).toMatchObject({ state: "done", added: 0, changed: 2, alreadyThere: 1 });
    expect(await database().kit.findUniqueOrThrow({ where: { code: "KX-1" } })).toMatchObject({ name: "New Fieldway kit" });
    expect(await broughtIn(admin, "kits", KITS, "update")).toMatchObject({ changed: 2 });
    for (const [kind, other] of [["turbo_models", MODELS.replace("Example 40", "Example forty")], ["turbo_models", MODELS.replace("Example 40", "Example forty").replace("612,5;", "612,5;SX-2")], ["suppliers", SUPPLIERS.replace("Hamburg", "Hafen")], ["vehicles", VEHICLES.replace("2016", "2017")]] as const) {
      expect(await broughtIn(admin, kind, other)).toMatchObject({ state: "refused", faulty: 1 });
      expect(await broughtIn(admin, kind, other, "update")).toMatchObject({ state: "done", changed: 1 });
    }
  });

  test("is told what is wrong in each row", async () => {
    expect(told(await broughtIn(admin, "kits", "kit,name,turbo,rev,introduced\nKX-9,Nine,TX99,A,2024-01-01\nKX-9,Neun,,B,2024-01-01\nKX-9,Nine,,B,2024-02-30\nKX-8,Eight,,A,2024-01-01\nKX-8,Eight,,A,2025-01-01\n"))).toEqual([
      [2, "turbo_model", "unknown-turbo-model", ""],
      [3, "name", "differs-in-file", "Nine in line 2"],
      [4, "introduced_on", "not-a-date", ""],
      [6, "revision", "twice-in-file", "5"],
    ]);
    expect(told(await broughtIn(admin, "fitments", "kit,make,model,engine\nKX-1,Examplar,Fieldway,3.0 D\nKX-0,Examplar,Fieldway,2.4 D\nKX-1,Examplar,Fieldway,9.9\n"))).toEqual([
      [2, "model", "several-vehicles", ""],
      [3, "kit", "unknown-kit", ""],
      [4, "model", "unknown-vehicle", ""],
    ]);
    expect(told(await broughtIn(admin, "turbo_models", MODELS.replace("0,10", "0,01")))).toEqual([[2, "axial_play_max_mm", "not-above", ""]]);
    expect(told(await broughtIn(admin, "turbo_models", MODELS.replace("612,5", "0"), "update"))).toEqual([[3, "replacement_cost", "not-positive", ""]]);
    expect(told(await broughtIn(admin, "turbo_models", MODELS.replace("612,5;", "612,5;SX-9"), "update"))).toEqual([[3, "supplier", "unknown-supplier", ""]]);
    expect(told(await broughtIn(admin, "kits", KITS.replace("line.,", "line.,SX-1"), "update"))).toEqual([[3, "supplier", "differs-in-file", "SX-2 in line 2"]]);
    expect(told(await broughtIn(admin, "suppliers", "code,name,mail,days\nSX-3,Three,three@example.com,2.5\nSX-4,Four,four,30\n"))).toEqual([
      [2, "answer_within_days", "not-days", ""],
      [3, "email", "not-an-address", ""],
    ]);
    expect(await database().kit.count({ where: { code: { in: ["KX-8", "KX-9"] } } })).toBe(0);
  });
});

describe("a file of shipments", () => {
  test("is taken in once however often it is sent, kits without a unit too", async () => {
    expect(await broughtIn(admin, "shipments", SHIPMENTS)).toMatchObject({ state: "done", rows: 4, added: 4, problems: [] });
    const after = await counts();
    expect(await broughtIn(admin, "shipments", SHIPMENTS)).toMatchObject({ state: "done", added: 0, changed: 0, alreadyThere: 4 });
    expect(await counts()).toEqual(after);
    // One more of the kits alone on the same order is a shipment more.
    const more = SHIPMENTS.replace("\nX-2,", "\nX-1,runa@example.org,Runa,DE,2026-03-03,KX-2,A,,,,,\nX-2,");
    expect(await broughtIn(admin, "shipments", more)).toMatchObject({ added: 1, alreadyThere: 4 });
    const sent = await database().shipment.findMany({ where: { order: { number: "X-2" } }, include: { order: true, kitRevision: true, unit: true } });
    expect(sent).toMatchObject([{ order: { customerName: 'Garage, "Nord" and sons', customerEmail: "garage@example.com", country: "NL" }, kitRevision: { revision: "A" }, unit: { serial: "S-2", batch: "2502" }, vehicleId: null }]);
    expect(await database().shipment.findFirstOrThrow({ where: { unit: { serial: "S-1" } }, include: { kitRevision: true, vehicle: true } })).toMatchObject({ kitRevision: { revision: "B" }, vehicle: { engine: "2.4 D" } });
  });

  test("is known to the intake and to the cells of the reports", async () => {
    expect(await findMyPurchase("order", { number: "x-1", email: "RUNA@example.org" }, {}, false)).toMatchObject({ ok: true, values: { matches: "4" } });
    while ((await refreshReportCells()) !== 0);
    const cells = await database().$queryRaw<{ units: number }[]>`SELECT sum(units)::int AS units FROM shipped_cell AS c JOIN kit_revision AS r ON r.id = c.kit_revision_id JOIN kit AS k ON k.id = r.kit_id WHERE k.code = 'KX-1'`;
    expect(cells).toEqual([{ units: 2 }]);
  });

  test("is refused whole when one row is wrong, and every wrong row is told", async () => {
    const before = await counts();
    const { importId, ...refused } = await broughtIn(
      admin,
      "shipments",
      `${HEADING},Ordered on
Y-1,a@example.org,A,DE,2026-03-03,KX-1,,Y-1,1,,,,
Y-2,a@example.org,A,DE,2099-03-03,KX-1,,Y-2,1,,,,
Y-3,a@example,A,DEU,2026-03-03,KX-1,Z,Y-3,1,,,,
Y-4,a@example.org,A,DE,2026-03-03,KX-0,,Y-4,1,Examplar,,,
Y-5,a@example.org,A,DE,2026-03-03,KX-2,,Y-1,1,,,,
Y-1,b@example.org,A,DE,2026-03-03,KX-1,Z,,,,,,
Y-6,a@example.org,A,DE,2026-03-03,KX-1,,Y-6,1,Examplar,Nowhere,2.4 D,
Y-7,a@example.org,A,DE,2026-03-03,KX-0,,Y-7,1,,,,2026-03-04
Y-8,a@example.org,A,DE,2026-03-03,KX-0,,Y-8,1,Examplar,Fieldway,3.0 D,
Y-9,a@example.org,A,DE,2025-03-03,KX-1,,S-1,1,,,,
`,
    );
    expect(refused).toMatchObject({ state: "refused", rows: 10, faulty: 9 });
    expect(told(refused)).toEqual([
      [3, "shipped_on", "in-the-future", ""],
      [4, "country", "not-a-country", ""],
      [4, "customer_email", "not-an-address", ""],
      [5, "engine", "vehicle-incomplete", ""],
      [5, "model", "vehicle-incomplete", ""],
      [6, "serial", "twice-in-file", "2"],
      [6, "turbo_model", "no-turbo-model", ""],
      [7, "customer_email", "differs-in-file", "a@example.org in line 2"],
      [7, "revision", "unknown-revision", ""],
      [8, "model", "unknown-vehicle", ""],
      [9, "shipped_on", "shipped-before-ordered", ""],
      [10, "kit", "unknown-kit", ""],
      [10, "model", "several-vehicles", ""],
      [11, "batch", "differs", "2603"],
      [11, "order_number", "differs", "X-1"],
      [11, "shipped_on", "differs", "2026-03-03"],
    ]);
    expect(await counts()).toEqual(before);
    const list = await exportImportProblems(admin, importId);
    expect(list).toMatchObject({ ok: true, table: { rows: expect.arrayContaining([{ line: 10, column: "Kit", value: "KX-0", problem: expect.stringMatching(/no kit with this code/) }]) } });
  });

  test("that says otherwise is taken over when that is chosen, and an empty cell changes nothing", async () => {
    const file = `${HEADING}\nX-2,garage@example.com,Garage Nord,NL,2025-02-01,KX-1,B,S-2,2503,Examplar,Fieldway,2.4 D\nX-1,runa@example.org,Runa,DE,2026-03-03,KX-1,,S-1,,,,\n`;
    expect(await broughtIn(admin, "shipments", file)).toMatchObject({ state: "refused", faulty: 1 });
    expect(await broughtIn(admin, "shipments", file, "update")).toMatchObject({ state: "done", added: 0, changed: 1, alreadyThere: 1 });
    expect(await database().shipment.findFirstOrThrow({ where: { unit: { serial: "S-2" } }, include: { order: true, kitRevision: true, unit: true, vehicle: true } })).toMatchObject({
      order: { customerName: "Garage Nord" },
      kitRevision: { revision: "B" },
      unit: { batch: "2503" },
      vehicle: { engine: "2.4 D" },
    });
    expect(await database().unit.findUniqueOrThrow({ where: { serial: "S-1" } })).toMatchObject({ batch: "2603" });
  });

  test("does not change what was sent where there is a claim about it", async () => {
    const shipment = await database().shipment.findFirstOrThrow({ where: { unit: { serial: "S-1" } } });
    await database().claim.create({ data: { reference: "AAAA-AAA-AAC", filingKey: crypto.randomUUID(), shipmentId: shipment.id } });
    const file = (rev: string, name: string) => `${HEADING}\nX-1,runa@example.org,${name},DE,2026-03-03,KX-1,${rev},S-1,2603,Examplar,Fieldway,2.4 D\n`;
    expect(told(await broughtIn(admin, "shipments", file("A", "Runa"), "update"))).toEqual([[2, "revision", "has-claim", "B"]]);
    expect(await broughtIn(admin, "shipments", file("B", "Runa Terrane"), "update")).toMatchObject({ state: "done", changed: 1 });
  });

  test("that is refused for its form says so", async () => {
    expect(await broughtIn(admin, "shipments", `${HEADING}\nX-9,"a@example.org,A,DE\n`)).toMatchObject({ state: "refused", reason: "quotes-broken" });
    expect(await broughtIn(admin, "shipments", Buffer.from(`${HEADING}\nX-9,a@example.org,Frau Grün 🙂,DE,2026-03-03,KX-9,,,,,,\n`, "utf16le"))).toMatchObject({ state: "refused", problems: [{ problem: "unknown-kit" }] });
  });
});

describe("an upload", () => {
  test.each([
    ["nothing", Buffer.alloc(0), "empty"],
    ["a PDF", Buffer.from("%PDF-1.7\n1 0 obj\n<<>>\nendobj\n"), "not-text"],
    ["a picture", Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52, ...Array(60).fill(0)]), "not-text"],
    ["text with zero bytes", Buffer.from("kit,make\nKX-1,\0\n"), "not-text"],
  ])("of %s is refused", async (_, content, reason) => {
    expect(await uploadImport(admin, aPostedFile("fitments", content))).toEqual({ ok: false, reason });
  });

  test("of an unknown kind, or that is no form, or cut off, is refused", async () => {
    expect(await uploadImport(admin, aPostedFile("customers", "a,b\n"))).toEqual({ ok: false, reason: "kind-unknown" });
    expect(await uploadImport(admin, { contentType: "text/csv", body: null })).toEqual({ ok: false, reason: "no-form" });
    const { contentType } = aPostedFile("kits", "");
    async function* cut() {
      for await (const piece of aPostedFile("kits", "a,b\n").body ?? []) yield piece.subarray(0, piece.length - 4);
    }
    expect(await uploadImport(admin, { contentType, body: cut() })).toEqual({ ok: false, reason: "no-form" });
  });

  test("of 200 MB is refused without being kept", async () => {
    const { contentType } = aPostedFile("kits", "");
    const piece = Buffer.alloc(1024 * 1024, "a,b\n");
    async function* large() {
      for await (const start of aPostedFile("shipments", "a,b\n").body ?? []) yield start.subarray(0, start.length - 29);
      for (let count = 0; count < 200; count += 1) yield piece;
    }
    const before = await database().import.count();
    expect(await uploadImport(admin, { contentType, body: large() })).toEqual({ ok: false, reason: "too-big" });
    expect(await database().import.count()).toBe(before);
  });

  test("with one column or nothing below its heading cannot be started", async () => {
    for (const [content, refusal] of [["kit\nKX-1\n", { reason: "fields-missing", fields: ["make", "model", "engine"] }], ["kit,make,model,engine\n", { reason: "no-rows" }]] as const) {
      const uploaded = await uploadImport(admin, aPostedFile("fitments", content));
      const loaded = uploaded.ok ? await loadImport(admin, uploaded.importId) : uploaded;
      if (!loaded.ok) throw new Error(loaded.reason);
      expect(await startImport(admin, loaded.file.id, { ...loaded.file.reading, columns: { ...loaded.file.reading.columns } })).toEqual({ ok: false, ...refusal });
    }
  });

  test("shows its first rows as they will be read, in Windows-1252 and with dates month first", async () => {
    const uploaded = await uploadImport(admin, aPostedFile("shipments", Buffer.from(`${HEADING}\nZ-1,z@example.org,Frau Gr\xfcn,DE,03/17/2026,KX-1,,Z-1,1,,,\n`, "latin1"), { pieces: 7 }));
    const loaded = uploaded.ok ? await loadImport(admin, uploaded.importId) : uploaded;
    if (!loaded.ok || !loaded.preview) throw new Error("no preview");
    expect(loaded.file.reading).toMatchObject({ encoding: "windows-1252", delimiter: ",", dateOrder: "month-day-year" });
    const cells = Object.fromEntries(loaded.preview.rows[0]?.cells.map(({ field, value }) => [field, value]) ?? []);
    expect(cells).toMatchObject({ customer_name: "Frau Grün", shipped_on: "2026-03-17", serial: "Z-1" });
  });
});

describe("two files at once", () => {
  test("are brought in one after the other, and the same serial in both once", async () => {
    const file = (order: string) => `${HEADING}\n${order},t@example.org,T,DE,2026-04-01,KX-1,,T-1,1,,,\n`;
    const ids = [await queued(admin, "shipments", file("T-1")), await queued(admin, "shipments", file("T-2"))];
    const ended = await Promise.all([carryOutImports(), carryOutImports()]);
    expect(ended.reduce((sum, count) => sum + count, 0)).toBe(2);
    const states = await database().import.findMany({ where: { id: { in: ids } }, orderBy: { queuedAt: "asc" }, select: { state: true, added: true, faulty: true } });
    expect(states).toEqual([
      { state: "done", added: 1, faulty: 0 },
      { state: "refused", added: 0, faulty: 1 },
    ]);
  });

  test("leave the second waiting while another worker is at it", async () => {
    const id = await queued(admin, "fitments", FITMENTS);
    await inTransaction(async (db) => {
      expect(await lockImports(db)).toBe(true);
      expect(await carryOutImports()).toBe(0);
    });
    expect(await carryOutImports()).toBe(1);
    expect(await database().import.findUniqueOrThrow({ where: { id } })).toMatchObject({ state: "done" });
  });

  test("cannot be started twice, nor taken back once the worker has it", async () => {
    const id = await queued(admin, "fitments", FITMENTS);
    const loaded = await loadImport(admin, id);
    if (!loaded.ok) throw new Error(loaded.reason);
    expect(await startImport(admin, id, { ...loaded.file.reading, columns: { ...loaded.file.reading.columns } })).toEqual({ ok: false, reason: "not-waiting" });
    expect(await takeBackImport(admin, id)).toEqual({ ok: true });
    expect(await carryOutImports()).toBe(0);
    expect(await takeBackImport(admin, id)).toEqual({ ok: false, reason: "not-waiting" });
  });
});

describe("a worker that dies", () => {
  test("leaves nothing half done, and the next begins the file anew", async () => {
    const rows = Array.from({ length: 10_000 }, (_, row) => `K-${row},k@example.org,K,DE,2026-04-01,KX-1,,K-${row},1,,,`);
    const id = await queued(admin, "shipments", `${HEADING}\n${rows.join("\n")}\n`);
    const before = await counts();
    const worker = spawn(process.execPath, typescript("tests/setup/import-until-killed.ts"), { stdio: "ignore" });
    const ended = new Promise((resolve) => worker.once("exit", (_, signal) => resolve(signal)));
    await expect.poll(async () => (await database().import.findUniqueOrThrow({ where: { id } })).rows, { timeout: 120_000, interval: 10 }).toBeGreaterThan(0);
    worker.kill("SIGKILL");
    expect(await ended).toBe("SIGKILL");
    expect(await database().import.findUniqueOrThrow({ where: { id } })).toMatchObject({ state: "running", attempts: 1 });
    expect(await counts()).toEqual(before);
    // The server notices a moment later that nobody is at the other end.
    await expect.poll(carryOutImports, { timeout: 120_000 }).toBe(1);
    expect(await database().import.findUniqueOrThrow({ where: { id } })).toMatchObject({ state: "done", attempts: 2, phase: null, added: rows.length });
    // A process of its own has to start, and beside it all of these rows come in.
  });

  test("over the same file again and again has it given up, and says so", async () => {
    const id = await queued(admin, "fitments", FITMENTS);
    await database().import.update({ where: { id }, data: { state: "running", attempts: 3 } });
    await carryOutImports();
    expect(await database().import.findUniqueOrThrow({ where: { id } })).toMatchObject({ state: "failed", reason: "interrupted" });
  });
});

describe("what is kept of a file", () => {
  test("is the history and who did it in the trail", async () => {
    const { importId } = await broughtIn(admin, "fitments", FITMENTS);
    const lines = await database().auditEntry.findMany({ where: { detail: { path: ["importId"], equals: importId } }, orderBy: { id: "asc" } });
    expect(lines.map(({ action, personId }) => [action, personId])).toEqual([["upload_figures", admin.personId], ["start_import", admin.personId], ["end_import", admin.personId]]);
    expect(lines.at(-1)?.detail).toMatchObject({ state: "done", rows: 1, added: 0, alreadyThere: 1 });
  });

  test("is neither the file nor a value of it once its time is over", async () => {
    const { importId } = await broughtIn(admin, "fitments", "kit,make,model,engine\nKX-0,Examplar,Fieldway,2.4 D\n");
    const file = await openImportFile(admin, importId);
    if (file.ok) file.content.destroy();
    expect(file).toMatchObject({ ok: true, fileName: "figures.csv" });
    const { storageKey } = await database().import.findUniqueOrThrow({ where: { id: importId } });
    expect(await purgeExpired(new Date(Date.now() + (IMPORT_FILE_DAYS - 1) * 86_400_000))).toMatchObject({ imports: 0 });
    await purgeExpired(new Date(Date.now() + (IMPORT_FILE_DAYS + 1) * 86_400_000));
    await removeDiscarded();
    expect(await getObject(storageKey ?? "")).toBeNull();
    expect(await openImportFile(admin, importId)).toEqual({ ok: false, reason: "not-found" });
    expect(await database().importProblem.count({ where: { importId } })).toBe(0);
    expect(await database().import.findUniqueOrThrow({ where: { id: importId } })).toMatchObject({ state: "refused", faulty: 1, storageKey: null });
  });

  test("is no row in any table that outlives the import", async () => {
    const { rows } = await connectionPool().query("SELECT FROM pg_class WHERE relname IN ('staged', 'resolved', 'staged_problem', 'staged_difference')");
    expect(rows).toEqual([]);
  });
});
