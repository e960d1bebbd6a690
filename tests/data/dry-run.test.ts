import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { loadEdition } from "@/lib/data/editions";
import { findTrial, listTrialChanges } from "@/lib/data/trials";
import { promoteEdition } from "@/lib/operations/decide-edition";
import { askForDryRun, runDryRun } from "@/lib/operations/dry-run";
import { fileClaim } from "@/lib/operations/file-claim";
import { loadClaim } from "@/lib/operations/load-claim";
import { rankAnew } from "@/lib/operations/rank-anew";
import { recordFinding } from "@/lib/operations/record-finding";
import { aStaffActor } from "@/tests/builders/a-person";
import { aProposedEdition, withBase } from "@/tests/builders/an-edition";
import { aDraft, aFiledClaim, aForm, answerAll, OWNER_ANSWERS } from "@/tests/builders/intake";

let admin: StaffActor;
let claimId: string;

beforeAll(async () => {
  admin = await aStaffActor("admin");
  claimId = (await aFiledClaim()).claimId;
});

/** Asked for and run, as the worker does. */
async function dryRun(edition: number) {
  const asked = await askForDryRun(admin, edition);
  if (!asked.ok) throw new Error(`not asked: ${asked.reason}`);
  await runDryRun(asked.trialId);
  return findTrial(asked.trialId);
}

describe("a dry run", () => {
  test("finds the claim that another edition leads otherwise, and changes nothing of it", async () => {
    const before = await database().claim.findUniqueOrThrow({ where: { id: claimId } });
    const number = await aProposedEdition(admin, withBase(await loadEdition(1), before.leaderCause ?? "", 0.0001));
    const trial = await dryRun(number);
    expect(trial).toMatchObject({ editionNumber: number, againstNumber: 1, kind: "dry_run", done: 1, of: 1, failure: null, askedBy: { name: "Wren Calder" }, result: { claims: 1, otherLeader: 1 } });
    const changes = await listTrialChanges(trial?.id ?? "", { skip: 0, take: 10 });
    expect(changes).toMatchObject([{ claimId, beforeCause: before.leaderCause, beforeProbability: before.leaderProbability, claim: { reference: before.reference } }]);
    expect(changes[0]?.afterCause).not.toBe(before.leaderCause);
    expect(await database().claim.findUniqueOrThrow({ where: { id: claimId } })).toEqual(before);
  });

  test("queues one job, and none beside one that runs", async () => {
    const number = await aProposedEdition(admin);
    const both = await Promise.all([1, 2].map(() => askForDryRun(admin, number)));
    expect(both.map(({ ok }) => ok).sort()).toEqual([false, true]);
    expect(both).toContainEqual({ ok: false, reason: "runs-already" });
    const [jobs] = await database().$queryRaw<[{ count: bigint }]>`SELECT count(*) FROM graphile_worker.jobs WHERE task_identifier = 'dry-run' AND key IN (SELECT 'trial:' || id FROM edition_trial WHERE edition_number = ${number})`;
    expect(jobs.count).toBe(1n);
  });

  test("whose worker died begins anew when its job comes again, and is given up when somebody asks anew later", async () => {
    const number = await aProposedEdition(admin);
    const asked = await askForDryRun(admin, number);
    const trialId = asked.ok ? asked.trialId : "";
    const later = new Date(Date.now() + 11 * 60_000);
    const again = await askForDryRun(admin, number, later);
    expect(again).toMatchObject({ ok: true });
    expect(await findTrial(trialId)).toMatchObject({ failure: "The worker stopped before it was done." });
    // Its job comes after all: it is over.
    await runDryRun(trialId);
    expect(await findTrial(trialId)).toMatchObject({ result: null });
    const secondId = again.ok ? again.trialId : "";
    await runDryRun(secondId);
    const first = await findTrial(secondId);
    await runDryRun(secondId);
    expect(await findTrial(secondId)).toEqual(first);
  });

  test("takes a finding that no edition knows for nothing", async () => {
    const number = await aProposedEdition(admin);
    await database().finding.updateMany({ where: { claimId, code: "F12" }, data: { code: "F98" } });
    expect(await dryRun(number)).toMatchObject({ failure: null, result: { claims: 1 } });
    await database().finding.updateMany({ where: { claimId, code: "F98" }, data: { code: "F12" } });
  });

  test("that fails says so, and is over", async () => {
    const number = await aProposedEdition(admin);
    await database().$executeRaw`UPDATE knowledge_edition SET document = document #- '{causes,0,base}' WHERE number = ${number}`;
    await expect(dryRun(number)).rejects.toThrow();
    expect(await database().editionTrial.findFirstOrThrow({ where: { editionNumber: number } })).toMatchObject({ failure: "Ranking the stored claims failed; the log says at what.", result: null });
  });

  test("is refused for the edition in force and for one that is not there", async () => {
    expect(await askForDryRun(admin, 1)).toEqual({ ok: false, reason: "in-force" });
    expect(await askForDryRun(admin, 9999)).toEqual({ ok: false, reason: "not-found" });
  });
});

describe("a promoted edition", () => {
  test("ranks an open claim once somebody asks for it, and leaves its earlier rankings as they are", async () => {
    const own = (await aFiledClaim()).claimId;
    const earlier = await database().ranking.findFirstOrThrow({ where: { claimId: own } });
    const number = await aProposedEdition(admin);
    expect(await promoteEdition(admin, number, { reason: "Drains" })).toEqual({ ok: true });
    expect(await loadClaim(admin, own)).toMatchObject({ kept: { ranking: { edition: 1 } }, editionInForce: number });
    expect(await rankAnew(admin, own)).toEqual({ ok: true });
    expect(await loadClaim(admin, own)).toMatchObject({ kept: { ranking: { edition: number } } });
    expect(await database().ranking.findUniqueOrThrow({ where: { id: earlier.id } })).toEqual(earlier);
    await database().claim.update({ where: { id: own }, data: { stage: "withdrawn" } });
    expect(await rankAnew(admin, own)).toEqual({ ok: false, reason: "not-legal-here", stage: "withdrawn" });
  });

  test("ranks the claim at its next finding, without the findings that are gone", async () => {
    const shipped = await loadEdition(1);
    const without = {
      ...shipped,
      // One of the two findings of its screen, and all that another one asks.
      findings: shipped.findings.filter(({ code }) => code !== "F06" && code !== "F07"),
    };
    const number = await aProposedEdition(admin, without);
    expect(await promoteEdition(admin, number, { reason: "Neither tells anything" })).toEqual({ ok: true });
    const recorded = await recordFinding(admin, claimId, "F16", aForm({ F16: "absent", source: "technician", note: "" }));
    expect(recorded).toMatchObject({ ok: true });
    const ranking = await database().ranking.findFirstOrThrow({ where: { claimId }, orderBy: { createdAt: "desc" } });
    expect(ranking.editionNumber).toBe(number);
  });

  test("lets a draft that was begun before go on to be filed, without the questions that are gone", async () => {
    const gone = ["F06", "F07", "F22", "F33"];
    const still = OWNER_ANSWERS.filter(([screen]) => screen !== "since" && screen !== "engine");
    const begun = still.findIndex(([screen]) => screen === "vent");
    const draft = await aDraft();
    await answerAll(draft, still.slice(0, begun));
    const shipped = await loadEdition(1);
    const number = await aProposedEdition(admin, { ...shipped, findings: shipped.findings.filter(({ code }) => !gone.includes(code)) });
    expect(await promoteEdition(admin, number, { reason: "None of them tells anything" })).toEqual({ ok: true });
    await answerAll(draft, still.slice(begun));
    expect(await fileClaim(draft, randomUUID())).toMatchObject({ ok: true, filedNow: true });
  });
});
