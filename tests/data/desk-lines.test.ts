import { beforeAll, describe, expect, it } from "vitest";
import { connectionPool, database } from "@/lib/data/client";
import { rebuildReportCells, refreshReportCells } from "@/lib/data/report-cells";
import { workingClock } from "@/lib/domain/claims/working-hours";
import type { DeskQuality } from "@/lib/domain/reporting/desk-quality";
import { survivalCurve } from "@/lib/domain/statistics/survival-curve";
import { loadDeskQuality } from "@/lib/operations/load-desk-quality";
import { smallDemo } from "@/tests/builders/a-small-demo";
import { aStaffActor } from "@/tests/builders/a-person";
import { writeTables } from "../../seed/write-tables";

const NOW = new Date("2026-11-25T12:00:00Z");
const PERIOD = { from: "2025-12", to: "2026-11" };

interface PlainClaim {
  stage: string;
  filed: Date;
  promised: Date;
  answered: Date | null;
  decided: Date | null;
  ended: Date | null;
  cause: string | null;
  attribution: string | null;
  way: string | null;
  leader: string | null;
  inspected: boolean;
  returned: boolean;
  defective: number | null;
  opinions: boolean;
}

/** Straight from the tables, one claim after another. */
async function plainClaims(): Promise<PlainClaim[]> {
  const { rows } = await connectionPool().query<PlainClaim>(`
    SELECT c.stage::text, c.filed_at AS filed, c.promised_at AS promised, c.first_answer_at AS answered,
      (SELECT min(decided_at) FROM verdict WHERE claim_id = c.id) AS decided,
      (SELECT max(at) FROM audit_entry WHERE claim_id = c.id AND action IN ('clear', 'withdraw', 'lapse', 'merge') AND c.stage IN ('cleared', 'withdrawn', 'lapsed', 'merged')) AS ended,
      v.primary_cause AS cause, v.attribution::text, v.way::text, (SELECT result->'causes'->0->>'code' FROM ranking WHERE id = v.ranking_id) AS leader,
      EXISTS (SELECT FROM return t JOIN bench_inspection b ON b.return_id = t.id WHERE t.claim_id = c.id AND b.inspected_at IS NOT NULL) AS inspected,
      EXISTS (SELECT FROM return t WHERE t.claim_id = c.id) AS returned,
      (SELECT max((result->>'unitDefective')::float8) FROM ranking WHERE claim_id = c.id) AS defective,
      EXISTS (SELECT FROM second_opinion o WHERE o.claim_id = c.id) AS opinions
    FROM claim c LEFT JOIN verdict v ON v.claim_id = c.id AND v.superseded_at IS NULL
    WHERE c.stage <> 'draft' AND to_char(c.filed_at AT TIME ZONE (SELECT time_zone FROM seller_settings), 'YYYY-MM') BETWEEN '${PERIOD.from}' AND '${PERIOD.to}'`);
  return rows;
}

async function quality(): Promise<DeskQuality> {
  const loaded = await loadDeskQuality(await aStaffActor("product"), PERIOD, NOW);
  if (!loaded.ok) throw new Error(loaded.reason);
  return loaded.quality;
}

async function expectLinesToSayTheSame() {
  const claims = await plainClaims();
  const settings = await database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
  const clock = workingClock(settings, new Date("2025-11-01"), NOW);
  const { counts, firstAnswer, verdict, withScoring } = await quality();
  const count = (counts: (claim: PlainClaim) => boolean) => claims.filter(counts).length;
  const judged = ({ cause, leader }: PlainClaim) => cause !== null && leader !== null;
  expect(counts).toMatchObject({
    filed: claims.length,
    answered: count(({ answered }) => answered !== null),
    unanswered: count(({ answered, ended }) => !answered && !ended),
    "on-time": count(({ answered, promised }) => answered !== null && answered <= promised),
    late: count(({ answered, ended, promised }) => (answered ?? ended ?? NOW) > promised),
    decided: count(({ decided }) => decided !== null),
    undecided: count(({ decided, ended }) => !decided && !ended),
    inspected: count(({ inspected, cause }) => inspected && cause !== null),
    compared: count(judged),
    "same-cause": count((claim) => judged(claim) && claim.cause === claim.leader),
    overruled: count(({ way }) => way === "overruled"),
    opinions: count(({ opinions }) => opinions),
    suspected: count(({ defective }) => (defective ?? 0) >= settings.needlessReturnCost / (settings.needlessReturnCost + settings.missedDefectCost)),
  });
  expect(withScoring.cells.reduce((sum, cell) => sum + cell.claims, 0)).toBe(counts.compared);
  for (const [summary, until] of [[firstAnswer, ({ answered }: PlainClaim) => answered], [verdict, ({ decided }: PlainClaim) => decided]] as const) {
    const curve = (hours: (from: Date, to: Date) => number) => survivalCurve(claims.map((claim) => ({ time: hours(claim.filed, until(claim) ?? claim.ended ?? NOW), failed: until(claim) !== null })), 0.9);
    for (const [told, plain] of [[summary.working, curve(clock)], [summary.calendar, curve((from, to) => (to.getTime() - from.getTime()) / 3_600_000)]] as const)
      for (const figure of ["median", "medianLower", "medianUpper"] as const) {
        // Waits are kept to the minute, long ones to three figures.
        const [shown = Number.NaN, exact = Number.NaN] = [told[figure], plain[figure]].map(Number);
        expect(Math.abs(shown - exact), figure).toBeLessThan(1 / 60 + exact / 200);
      }
  }
}

describe("the lines of the desk on the demo", () => {
  beforeAll(async () => {
    await writeTables((await smallDemo()).tables);
  });

  it("say what the tables say, claim by claim", async () => {
    expect((await quality()).counts.compared).toBeGreaterThan(30);
    await expectLinesToSayTheSame();
  });

  it("follow what changes: an answer, a verdict taken back, a return, an inspection, an opinion, and the opening hours", async () => {
    const { rows: claims } = await connectionPool().query<{ id: string }>("SELECT c.id FROM claim c JOIN verdict v ON v.claim_id = c.id WHERE v.superseded_at IS NULL AND v.way = 'confirmed' AND c.stage = 'settled' AND NOT EXISTS (SELECT FROM return WHERE claim_id = c.id) ORDER BY c.filed_at DESC LIMIT 3");
    const [first, second, third] = claims.map(({ id }) => id);
    const { personId } = await aStaffActor("bench");
    await database().claim.update({ where: { id: first ?? "" }, data: { firstAnswerAt: NOW } });
    await connectionPool().query("UPDATE verdict SET way = 'overruled', reason = 'Seen.' WHERE claim_id = $1 AND superseded_at IS NULL", [second]);
    const { id: returnId } = await database().return.create({ data: { claimId: third ?? "", number: "R-TEST", authorisedById: personId, expiresAt: new Date("2027-01-01") } });
    const { id: inspectionId } = await database().benchInspection.create({ data: { returnId, inspectedById: personId, startedAt: NOW, inspectedAt: null } });
    await database().sellerSettings.update({ where: { id: 1 }, data: { opensAt: "10:00", closesAt: "12:00" } });
    const before = await quality();
    while ((await refreshReportCells()) !== 0);
    expect((await quality()).counts.inspected, "while it is under way").toBe(before.counts.inspected);
    await database().benchInspection.update({ where: { id: inspectionId }, data: { inspectedAt: NOW } });
    while ((await refreshReportCells()) !== 0);
    const after = await quality();
    expect(after.counts).toMatchObject({ inspected: before.counts.inspected + 1, overruled: before.counts.overruled + 1 });
    expect(after.firstAnswer.working.median).toBeLessThan(before.firstAnswer.working.median ?? 0);
    await expectLinesToSayTheSame();
  });

  it("are the same when made anew", async () => {
    const before = await quality();
    await rebuildReportCells();
    expect(await quality()).toEqual(before);
  });
});
