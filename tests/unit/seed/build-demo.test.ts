import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { daysOverdue } from "@/lib/domain/claims/return-dates";
import { compareSerials } from "@/lib/domain/claims/serials";
import { CLAIM_STAGES } from "@/lib/domain/claims/stages";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { buildDemo, type DemoPlan } from "../../../seed/build-demo";
import { dayOf } from "../../../seed/calendar";
import { faultyBatch, HIDDEN_DRAIN_FAULT } from "../../../seed/causal-model";
import { DEMO_PEOPLE } from "../../../seed/demo-people";
import type { Picture } from "../../../seed/photos/render";
import { SCENES, type SceneName } from "../../../seed/photos/scenes";
import { type Row, TABLES, type Tables } from "../../../seed/tables";

const blank = (name: string): Picture => ({ full: Buffer.from(name), thumbnail: Buffer.from(name), width: 4, height: 3, sha256: createHash("sha256").update(name).digest("hex") });

const plan: DemoPlan = {
  seed: 7,
  today: dayOf("2026-11-25"),
  scale: 0.05,
  edition: edition1,
  staff: DEMO_PEOPLE.map((person) => ({ ...person, passwordHash: "$argon2id$" })),
  pictures: new Map((Object.keys(SCENES) as SceneName[]).map((name) => [name, blank(name)])),
  origin: "http://127.0.0.1:3000",
};

function digest(tables: Tables): string {
  const hash = createHash("sha256");
  for (const table of TABLES) hash.update(JSON.stringify(tables.rows(table)));
  return hash.digest("hex");
}

const small = buildDemo(plan);

describe("the demo", () => {
  it("is the same for the same seed and day", () => {
    expect(digest(buildDemo(plan).tables)).toBe(digest(small.tables));
  });

  it("is another for another seed", () => {
    expect(digest(buildDemo({ ...plan, seed: 8 }).tables)).not.toBe(digest(small.tables));
  });

  it("has claims in every stage, however small it is", () => {
    expect(new Set(small.tables.rows("claim").map(({ stage }) => stage))).toEqual(new Set(CLAIM_STAGES));
  });

  it("answers only what the edition asks, in its words and units", () => {
    for (const { code, observer, answer, measured, typed_unit } of small.tables.rows("finding")) {
      const definition = edition1.findings.find((finding) => finding.code === code);
      expect(definition?.observers, `${code}`).toContain(observer);
      if (definition?.kind === "measurement") expect([typeof measured, typed_unit], `${code}`).toEqual(["number", definition.unit]);
      else expect(definition?.options.map(({ value }) => value), `${code}`).toContain(answer);
    }
  });

  it("tells each claim in the order of its events", () => {
    const stages = new Map<string, string>();
    for (const { claim_id, detail } of small.tables.rows("audit_entry")) {
      const { from, to } = detail as Row;
      if (from === undefined) continue;
      expect(stages.get(String(claim_id)) ?? "draft").toBe(from);
      stages.set(String(claim_id), String(to));
    }
    for (const { id, stage } of small.tables.rows("claim")) expect(stages.get(String(id)) ?? "draft").toBe(stage);
  });

  it("never has an event after the end of the story", () => {
    for (const table of ["audit_entry", "message", "finding", "verdict"] as const)
      for (const row of small.tables.rows(table)) expect(String(row.at ?? row.created_at ?? row.observed_at ?? row.decided_at) <= "2026-11-25T06:00:00.000Z").toBe(true);
  });
});

const large = buildDemo({ ...plan, scale: 0.6 });

describe("the causal model", () => {
  const { shipments, complaints } = large;

  it("brings about 25 complaints per 1,000 shipped", () => {
    expect((1000 * complaints.length) / shipments.length).toBeGreaterThan(20);
    expect((1000 * complaints.length) / shipments.length).toBeLessThan(30);
  });

  it("makes most verdicts fit or kit, and about one in twenty the unit", () => {
    const verdicts = large.tables.rows("verdict").filter(({ superseded_at }) => superseded_at === null);
    const shares = Object.fromEntries(ATTRIBUTIONS.map((name) => [name, verdicts.filter(({ attribution }) => attribution === name).length / verdicts.length]));
    expect((shares.fit ?? 0) + (shares.kit ?? 0)).toBeGreaterThan(0.5);
    expect(shares.unit).toBeGreaterThan(0.03);
    expect(shares.unit).toBeLessThan(0.08);
    for (const name of ATTRIBUTIONS) expect(shares[name], name).toBeGreaterThan(0);
  });

  it("leaves the vehicle unknown on a fifth of the shipments", () => {
    expect(shipments.filter(({ vehicleKnown }) => !vehicleKnown).length / shipments.length).toBeCloseTo(0.2, 1);
  });

  it("hides a drain line that leaks at several times the rate on one vehicle", () => {
    const { kit, revision, vehicle } = HIDDEN_DRAIN_FAULT;
    const rate = (isMeant: (revisionNow: string, vehicleNow: string) => boolean) => {
      const shipped = shipments.filter((one) => one.kit.code === kit && isMeant(one.revision.revision, one.vehicle.key)).length;
      const drains = complaints.filter(({ shipment: one, truth }) => one.kit.code === kit && isMeant(one.revision.revision, one.vehicle.key) && ["C01", "C03"].includes(truth.primary)).length;
      return drains / shipped;
    };
    const faulty = rate((revisionNow, vehicleNow) => revisionNow === revision && vehicleNow === vehicle);
    const rest = rate((revisionNow, vehicleNow) => revisionNow !== revision || vehicleNow !== vehicle);
    expect(faulty / rest).toBeGreaterThan(2.5);
  });

  it("hides a batch whose seal rings fail far more often than those of other batches", () => {
    const batch = faultyBatch(plan.today);
    const rate = (isMeant: (batchNow: string) => boolean) => {
      const shipped = shipments.filter(({ unit }) => unit && isMeant(unit.batch)).length;
      return complaints.filter(({ shipment: { unit }, truth }) => unit && isMeant(unit.batch) && truth.primary === "C15").length / shipped;
    };
    expect(rate((one) => one === batch) / rate((one) => one !== batch)).toBeGreaterThan(10);
  });

  it("ices vents in winter only", () => {
    const months = complaints.filter(({ truth }) => truth.primary === "C07").map(({ leaksFrom }) => new Date(leaksFrom * 86_400_000).getUTCMonth() + 1);
    expect(months.length).toBeGreaterThan(10);
    expect(months.filter((month) => month > 4 && month < 12)).toEqual([]);
  });
});

describe("the words of the demo", () => {
  const german = large.tables.rows("claim").filter(({ language }) => language === "de");

  it("have a letter for every verdict, which names its complaint", () => {
    const references = new Map(large.tables.rows("claim").map(({ id, reference }) => [id, String(reference)]));
    for (const { claim_id = null, letter } of large.tables.rows("verdict")) expect(letter).toContain(references.get(claim_id));
  });

  it("are German with some customers of late, on both sides and in their letters", () => {
    expect(german.length).toBeGreaterThan(5);
    const ids = new Set(german.map(({ id }) => id));
    const written = [...large.tables.rows("verdict").map(({ claim_id, letter }) => [claim_id, letter]), ...large.tables.rows("message").map(({ claim_id, body }) => [claim_id, body])].filter(([claimId]) => ids.has(claimId));
    expect(written.length).toBeGreaterThan(5);
    for (const words of [...german.map(({ description }) => description), ...written.map(([, text]) => text)]) expect(words).not.toMatch(/\b(the|and|you|your|with|please)\b/i);
  });
});

describe("the returns of the demo", () => {
  const returns = large.tables.rows("return");

  it("have one in carriage that is overdue, and no story that runs past its end or begins before the unit was shipped", () => {
    const now = new Date("2026-11-25T06:00:00Z");
    const late = returns.filter(({ state, expires_at, sent_at }) => state === "in_carriage" && daysOverdue({ state, expiresAt: new Date(String(expires_at)), sentAt: new Date(String(sent_at)) }, now) !== null);
    expect(late).toHaveLength(1);
    const claim = large.tables.rows("claim").find(({ id }) => id === late[0]?.claim_id);
    const shipment = large.tables.rows("shipment").find(({ id }) => id === claim?.shipment_id);
    expect(String(shipment?.shipped_on) < String(claim?.filed_at)).toBe(true);
  });

  it.each(["2026-11-09", "2026-11-16", "2026-11-26", "2026-11-27", "2026-12-12"])("tell nobody's fitting after the complaint, nor before the shipping, up to %s", (day) => {
    const { tables } = buildDemo({ ...plan, seed: 20_231, scale: 1, today: dayOf(day) });
    const shippedOn = new Map(tables.rows("shipment").map(({ id, shipped_on }) => [id, String(shipped_on)]));
    const upsideDown = tables.rows("claim").filter(({ fitted_on, filed_at, shipment_id }) => fitted_on && filed_at && (String(fitted_on) > String(filed_at).slice(0, 10) || String(fitted_on) < (shippedOn.get(shipment_id ?? null) ?? "")));
    expect(upsideDown.map(({ reference, fitted_on, filed_at }) => `${reference} ${fitted_on} ${filed_at}`)).toEqual([]);
  });

  it.each(["2026-11-23", "2026-11-26", "2026-11-29"])("leave work for the bench on any day, %s among them", (day) => {
    const { tables } = buildDemo({ ...plan, today: dayOf(day) });
    const places = new Map(tables.rows("handover").map(({ parcel_id, to_code }) => [parcel_id, String(to_code)]));
    const at = new Map(tables.rows("parcel").map(({ id, return_id }) => [return_id, places.get(id)]));
    const here = tables.rows("return").filter(({ state }) => state === "received" || state === "on_the_bench");
    const inspections = new Map(tables.rows("bench_inspection").map((inspection) => [inspection.return_id, inspection]));
    const waiting = here.filter(({ id }) => !inspections.has(id));
    expect(waiting.filter(({ id }) => at.get(id) === "DOOR").length).toBeGreaterThanOrEqual(2);
    expect(waiting.filter(({ id }) => at.get(id)?.startsWith("SHELF")).length).toBeGreaterThanOrEqual(3);
    const onBench = [...inspections.values()].filter(({ return_id }) => here.some(({ id }) => id === return_id));
    expect(onBench.map(({ inspected_at }) => inspected_at === null).toSorted()).toEqual([false, true]);
    const half = onBench.find(({ inspected_at }) => inspected_at === null);
    const moved = tables.rows("bench_step_record").filter(({ inspection_id, unit_after }) => inspection_id === half?.id && unit_after !== null);
    expect(moved.some(({ unit_before, unit_after }) => unit_before !== unit_after)).toBe(true);
  });

  it("keep evidence until its day and seldom longer", () => {
    const held = large.tables.rows("disposition").filter(({ keep_until, superseded_at }) => keep_until !== null && superseded_at === null);
    const past = held.filter(({ keep_until }) => String(keep_until) < "2026-11-25");
    expect(past.length).toBeGreaterThan(0);
    expect(past.length).toBeLessThanOrEqual(4);
    expect(held.length).toBeGreaterThan(past.length);
    for (const { return_id } of held) expect(large.tables.rows("disposition").filter((one) => one.return_id === return_id && one.superseded_at === null)).toHaveLength(1);
  });

  it("have one unit under another serial than its claim's, and parcels that nobody can place", () => {
    const claims = new Map(large.tables.rows("claim").map((claim) => [claim.id, claim]));
    const here = returns.filter(({ state }) => state === "received");
    const differing = here.filter(({ claim_id = null, serial_seen = null }) => compareSerials(serial_seen as string | null, (claims.get(claim_id)?.serial ?? null) as string | null) === "differs");
    expect(differing).toHaveLength(1);
    expect(large.tables.rows("parcel").filter(({ return_id, reason }) => return_id === null && reason === "no_number")).toHaveLength(2);
  });
});
