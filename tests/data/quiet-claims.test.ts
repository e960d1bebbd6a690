import { describe, expect, onTestFinished, test, vi } from "vitest";
import type { CustomerActor } from "@/lib/access/actors";
import { connectionPool, database } from "@/lib/data/client";
import { log } from "@/lib/log";
import { answerCheck } from "@/lib/operations/answer-check";
import { askForCheck } from "@/lib/operations/ask-for-check";
import { holdLapse, remindOfOpenChecks } from "@/lib/operations/remind-of-checks";
import { writeCustomerMessage } from "@/lib/operations/write-customer-message";
import { noteBounce, sayReached } from "@/lib/operations/note-bounce";
import { aStaffActor } from "../builders/a-person";
import { aFiledClaim, aForm } from "../builders/intake";

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000);
const claimRow = ({ claimId }: CustomerActor) => database().claim.findUniqueOrThrow({ where: { id: claimId } });
const actsOn = async ({ claimId }: CustomerActor) =>
  (await database().auditEntry.findMany({ where: { claimId, action: { in: ["remind_of_checks", "give_lapse_notice", "lapse", "answer_late"] } }, orderBy: { id: "asc" } })).map(({ action }) => action);
const mailsTo = ({ claimId }: CustomerActor) => database().outgoingMail.findMany({ where: { claimId, onceKey: { contains: claimId } }, orderBy: { createdAt: "asc" } });

/** A claim with one check that waits for the customer. */
async function anAskedClaim() {
  const [customer, support] = [await aFiledClaim(), await aStaffActor("support")];
  const asked = await askForCheck(support, customer.claimId, "F25", aForm({ note: "" }));
  if (!asked.ok) throw new Error(asked.reason);
  return { customer, support, request: await database().checkRequest.findFirstOrThrow({ where: { claimId: customer.claimId } }) };
}

/** The whole way to the end, as the worker goes it when it looks every day. */
async function lapsed() {
  const asked = await anAskedClaim();
  for (let day = 1; day <= 15; day++) await remindOfOpenChecks(inDays(day));
  return asked;
}

describe("a check that nobody answers", () => {
  test("is reminded of twice, then the customer is told the day, and on it the claim lapses, each once", async () => {
    const { customer } = await anAskedClaim();
    await remindOfOpenChecks(inDays(3.9));
    expect(await actsOn(customer)).toEqual([]);
    for (const day of [4.1, 4.2, 8.2, 8.3, 10.3]) await Promise.all([remindOfOpenChecks(inDays(day)), remindOfOpenChecks(inDays(day))]);
    expect(await actsOn(customer)).toEqual(["remind_of_checks", "remind_of_checks", "give_lapse_notice"]);
    const { lapsesAt, stage } = await claimRow(customer);
    expect(stage).toBe("awaiting_checks");
    expect((lapsesAt?.getTime() ?? 0) - inDays(14).getTime()).toBeGreaterThan(0);
    await remindOfOpenChecks(inDays(14));
    expect((await claimRow(customer)).stage).toBe("awaiting_checks");
    await remindOfOpenChecks(inDays(15));
    expect((await claimRow(customer)).stage).toBe("lapsed");
    const quiet = (await mailsTo(customer)).filter(({ onceKey }) => /^(quiet|lapsed):/.test(onceKey));
    expect(quiet.map(({ subject }) => subject.replace(customer.reference, "X").replace(/on .* unless/, "on DAY unless"))).toEqual([
      "We still need your answer: complaint X",
      "We still need your answer: complaint X",
      "Your complaint X ends on DAY unless you answer",
      "Your complaint X is closed",
    ]);
  });

  test("is reminded of though the claim before it cannot be: that one is told in the log", async () => {
    const [{ customer: stuck }, { customer: next }] = [await anAskedClaim(), await anAskedClaim()];
    await connectionPool().query(`
      CREATE FUNCTION refuse_stuck() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE 'refused'; END $$;
      CREATE TRIGGER refuse_stuck BEFORE UPDATE ON claim FOR EACH ROW WHEN (NEW.id = '${stuck.claimId}') EXECUTE FUNCTION refuse_stuck()`);
    onTestFinished(async () => void (await connectionPool().query("DROP FUNCTION refuse_stuck CASCADE")));
    const logged = vi.spyOn(log, "error").mockReturnValue();
    await remindOfOpenChecks(inDays(4.1));
    const lines = logged.mock.calls.flat();
    logged.mockRestore();
    expect(lines).toEqual([expect.objectContaining({ event: "claim-passed-over", claimId: stuck.claimId })]);
    expect([await actsOn(stuck), await actsOn(next)]).toEqual([[], ["remind_of_checks"]]);
  });

  test("starts anew with a word of the customer", async () => {
    const { customer } = await anAskedClaim();
    for (const day of [4.1, 8.2, 10.3]) await remindOfOpenChecks(inDays(day));
    expect((await claimRow(customer)).lapsesAt).not.toBeNull();
    await database().auditEntry.create({ data: { claimId: customer.claimId, actorKind: "customer", action: "attach_photo", at: inDays(11) } });
    await remindOfOpenChecks(inDays(15));
    expect(await claimRow(customer)).toMatchObject({ stage: "awaiting_checks" });
    await remindOfOpenChecks(inDays(15.1));
    expect(await claimRow(customer)).toMatchObject({ stage: "awaiting_checks", quietSteps: 1, lapsesAt: null });
  });

  test("is let be while staff hold it, and counted from the day they let go", async () => {
    const { customer, support } = await anAskedClaim();
    await remindOfOpenChecks(inDays(4.1));
    expect(await holdLapse(support, customer.claimId, true)).toEqual({ ok: true });
    expect(await holdLapse(support, customer.claimId, true)).toEqual({ ok: false, reason: "changed-meanwhile" });
    for (let day = 5; day < 40; day++) await remindOfOpenChecks(inDays(day));
    expect((await claimRow(customer)).stage).toBe("awaiting_checks");
    expect(await actsOn(customer)).toEqual(["remind_of_checks"]);
    expect(await holdLapse(support, customer.claimId, false)).toEqual({ ok: true });
    await remindOfOpenChecks(inDays(3));
    expect(await actsOn(customer)).toEqual(["remind_of_checks"]);
  });

  test("never ends a claim whose customer mail does not reach, until somebody has", async () => {
    const { customer, support } = await anAskedClaim();
    const [mail] = await mailsTo(customer);
    await noteBounce(mail?.id ?? "", "550 unknown user");
    for (let day = 1; day < 40; day++) await remindOfOpenChecks(inDays(day));
    expect(await claimRow(customer)).toMatchObject({ stage: "awaiting_checks", quietSteps: 0 });
    await sayReached(support, customer.claimId);
    await remindOfOpenChecks(inDays(41));
    expect(await claimRow(customer)).toMatchObject({ quietSteps: 1 });
  });
});

describe("an answer after the end", () => {
  test("opens the same claim again with a new promise, and counts", async () => {
    const { customer, request } = await lapsed();
    expect(await claimRow(customer)).toMatchObject({ stage: "lapsed", quietSteps: 0, lapsesAt: null });
    const now = inDays(20);
    expect(await answerCheck(customer, request.id, aForm({ F25: "present" }), now)).toEqual({ ok: true });
    const claim = await claimRow(customer);
    expect(claim).toMatchObject({ stage: "in_review", firstAnswerAt: null });
    expect(claim.promisedAt?.getTime()).toBeGreaterThan(now.getTime());
    expect((await actsOn(customer)).slice(-2)).toEqual(["lapse", "answer_late"]);
    expect(await database().finding.count({ where: { claimId: customer.claimId, code: "F25", replacedAt: null } })).toBe(1);
  });

  test("may be a message too", async () => {
    const { customer } = await lapsed();
    expect(await writeCustomerMessage(customer, aForm({ body: "I was away." }))).toEqual({ ok: true });
    expect((await claimRow(customer)).stage).toBe("in_review");
  });
});
