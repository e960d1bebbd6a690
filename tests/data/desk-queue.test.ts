import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { byRisk } from "@/lib/domain/claims/queue-order";
import { makeReference } from "@/lib/domain/claims/reference";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { claimAddress, queueAddress, readQueueFilter } from "@/lib/inputs/queue-filter";
import { loadClaim } from "@/lib/operations/load-claim";
import { beInClaim, leaveClaim } from "@/lib/operations/be-in-claim";
import { loadPlaceInQueue } from "@/lib/operations/load-place-in-queue";
import { loadQueue, type Queue } from "@/lib/operations/load-queue";
import { needNoAnswer } from "@/lib/operations/need-no-answer";
import { aStaffActor } from "../builders/a-person";

const NOW = new Date("2026-03-10T12:00:00Z");
const at = (hours: number) => new Date(NOW.getTime() + hours * 3_600_000);

interface ClaimToMake {
  stage?: ClaimStage;
  stopsEngine?: boolean;
  promised: number;
  answered?: number;
  leader?: string;
  unit?: number;
  look?: number;
  deskSince?: number;
  more?: { contactName?: string; contactEmail?: string; serial?: string; orderNumber?: string; kitRevisionId?: string; assignedToId?: string };
}

/** Made once; each is known by its name. */
const CLAIMS: Readonly<Record<string, ClaimToMake>> = {
  late: { promised: -30, leader: "C01", unit: 0.02, more: { contactName: "Ada Ornek", contactEmail: "ada@example.com" } },
  due: { promised: 3, leader: "C15", unit: 0.5, more: { serial: "T62-118840", orderNumber: "BT-77001" } },
  "answered long ago": { stage: "awaiting_checks", promised: -400, answered: -410, leader: "C08", unit: 0.01 },
  "answered lately": { stage: "in_review", promised: -500, answered: -2, leader: "C20", unit: 0.03, look: 12, deskSince: -20 },
  "can wait": { promised: 40, leader: "C05", look: 55 },
  "can wait, worth less": { promised: 30, leader: "C05", look: 3 },
  "must stand still": { promised: 20, stopsEngine: true, leader: "C13", unit: 0.1 },
  "must stand still, answered": { stage: "awaiting_checks", promised: -50, answered: -60, stopsEngine: true, leader: "C02", unit: 0.04 },
  settled: { stage: "settled", promised: -900, answered: -910, stopsEngine: true, leader: "C01", unit: 0.02, more: { serial: "T62-200001", contactEmail: "past@example.com" } },
  draft: { stage: "draft", promised: 0, more: { contactEmail: "past@example.com" } },
};
const ids = new Map<string, string>();
let support: StaffActor;

const namesOf = (queue: Queue) => queue.rows.map(({ id }) => [...ids].find(([, known]) => known === id)?.[0]);

async function shown(query: Record<string, string | string[]> = {}): Promise<Queue> {
  const queue = await loadQueue(support, readQueueFilter(query), NOW);
  if (!queue.ok) throw new Error(queue.reason);
  return queue;
}

beforeAll(async () => {
  support = await aStaffActor("support");
  const kit = await database().kit.create({ data: { code: "DRV-1", name: "Drover kit", revisions: { create: { revision: "A", introducedOn: at(-9000) } } }, include: { revisions: true } });
  for (const [name, { stage = "filed", promised, answered, leader, unit, look, deskSince, stopsEngine = false, more = {} }] of Object.entries(CLAIMS)) {
    const id = randomUUID();
    ids.set(name, id);
    const isDraft = stage === "draft";
    await database().claim.create({
      data: {
        id,
        reference: makeReference(crypto.getRandomValues(new Uint8Array(64))),
        filingKey: randomUUID(),
        stage,
        stopsEngine,
        filedBy: "customer",
        contactName: "Somebody",
        contactEmail: "somebody@example.com",
        filedAt: isDraft ? null : at(-1000 + promised / 1000),
        promisedAt: isDraft ? null : at(promised),
        firstAnswerAt: answered === undefined ? null : at(answered),
        decidedAt: stage === "settled" ? at(-800) : null,
        settledAt: stage === "settled" ? at(-700) : null,
        leaderCause: leader ?? null,
        leaderProbability: leader ? 0.4 : null,
        unitProbability: unit ?? null,
        lookValue: look ?? null,
        deskSince: deskSince === undefined ? null : at(deskSince),
        ...(name === "due" ? { assignedToId: support.personId, kitRevisionId: kit.revisions[0]?.id ?? null } : {}),
        ...more,
      },
    });
  }
});

describe("the order of the queue", () => {
  it("puts engines that must stand still first, then what is late or due soon, then what a look is worth, then what waits for others", async () => {
    expect(namesOf(await shown())).toEqual(["must stand still", "must stand still, answered", "late", "due", "can wait", "answered lately", "can wait, worth less", "answered long ago"]);
  });

  it("is the same as the domain tells it", async () => {
    const rows = await database().claim.findMany({ where: { id: { in: [...ids.values()] }, stage: { notIn: ["draft", "settled"] } } });
    const sorted = rows.map((row) => ({ ...row, promisedAt: row.promisedAt ?? NOW })).sort((a, b) => byRisk(a, b, NOW));
    expect((await shown()).rows.map(({ id }) => id)).toEqual(sorted.map(({ id }) => id));
  });

  it("gives each the reason for its place, and what a look is worth", async () => {
    const { rows } = await shown();
    expect(rows.map(({ reason, worth }) => [reason, worth])).toEqual([
      ["answer due in 20 hours", null],
      ["waits for the customer", null],
      ["30 hours late", null],
      ["answer due in 3 hours", null],
      ["answer due in 40 hours", "one more look should save about \u20ac55"],
      ["back at the desk for 20 hours, to be decided", "one more look should save about \u20ac12"],
      ["answer due in 30 hours", "one more look should save about \u20ac3"],
      ["waits for the customer", null],
    ]);
  });

  it("counts what waits, what is late and what must stand still, whatever is filtered", async () => {
    expect(await shown({ stage: "settled" })).toMatchObject({ waiting: 8, late: 1, mustStandStill: 2, total: 1 });
  });

  it("can be another", async () => {
    expect(namesOf(await shown({ sort: "unit" }))[0]).toBe("due");
    expect(namesOf(await shown({ sort: "promised" }))[0]).toBe("answered lately");
    expect(namesOf(await shown({ sort: "value" }))[0]).toBe("can wait");
  });
});

describe("the way from claim to claim", () => {
  const placeOf = async (name: string, query: Record<string, string> = {}, actor = support) => {
    const place = await loadPlaceInQueue(actor, ids.get(name) ?? "", readQueueFilter(query), NOW);
    if (!place.ok) throw new Error(place.reason);
    const nameOf = (id: string | null) => [...ids].find(([, known]) => known === id)?.[0] ?? null;
    return { next: nameOf(place.next), before: nameOf(place.before), place: place.place, of: place.of };
  };

  it("leads to the next of the view, from outside and from the last to the first", async () => {
    expect(await placeOf("late")).toEqual({ next: "due", before: "must stand still, answered", place: 3, of: 8 });
    expect(await placeOf("settled")).toEqual({ next: "must stand still", before: null, place: 0, of: 8 });
    expect(await placeOf("answered long ago")).toMatchObject({ next: "must stand still", place: 8 });
  });

  it("keeps to the filter and the order that one came with", async () => {
    expect(await placeOf("must stand still", { sort: "value", who: "nobody" })).toMatchObject({ of: 7 });
    expect(await placeOf("can wait", { sort: "value" })).toMatchObject({ next: "answered lately", place: 1 });
    expect(claimAddress("x", readQueueFilter({ sort: "value", page: "3" }))).toBe("/queue/x?sort=value");
  });

  it("passes over what a colleague has open now, until the page is left or has said nothing for a minute", async () => {
    const colleague = await aStaffActor("support");
    const due = ids.get("due") ?? "";
    expect(await beInClaim(colleague, due, NOW)).toEqual({ ok: true, others: [] });
    expect(await placeOf("late")).toMatchObject({ next: "can wait", place: 3, of: 8 });
    expect(await placeOf("late", {}, colleague)).toMatchObject({ next: "due" });
    expect(await beInClaim(support, due, NOW)).toEqual({ ok: true, others: [colleague.name] });
    expect((await shown()).rows[3]?.others).toEqual([colleague.name]);
    const minuteLater = await loadPlaceInQueue(support, ids.get("late") ?? "", readQueueFilter({}), new Date(NOW.getTime() + 61_000));
    expect(minuteLater).toMatchObject({ next: due });
    await leaveClaim(colleague, due);
    expect(await placeOf("late")).toMatchObject({ next: "due" });
    expect(await beInClaim(support, due, NOW)).toEqual({ ok: true, others: [] });
    expect(await beInClaim(support, ids.get("draft") ?? "", NOW)).toEqual({ ok: false, reason: "not-found" });
  });
});

describe("the filter of the queue", () => {
  it.each([
    [{ stage: "ended" }, ["settled"]],
    [{ stage: "in_review" }, ["answered lately"]],
    [{ attribution: "unit" }, ["due"]],
    [{ attribution: "normal" }, ["answered lately"]],
    [{ kit: "DRV-1" }, ["due"]],
    [{ kit: "no such kit" }, []],
    [{ who: "mine" }, ["due"]],
    [{ mark: "late" }, ["late"]],
    [{ mark: "still" }, ["must stand still", "must stand still, answered"]],
    [{ mark: "back" }, ["answered lately"]],
    [{ mark: "wrote" }, []],
    [{ mark: "unreached" }, []],
    [{ mark: "lapsing" }, []],
    [{ who: "nobody", stage: "in_review" }, ["answered lately"]],
  ])("%j shows %j", async (query, expected) => {
    expect(namesOf(await shown(query))).toEqual(expected);
  });

  it("never shows a draft, and passes over what it does not understand", async () => {
    expect((await shown({ stage: "draft", page: "none", sort: "bogus", attribution: "them" })).total).toBe(8);
    expect((await shown({ page: ["1", "2"] })).rows).toHaveLength(8);
    expect((await shown({ page: "40" })).rows).toEqual([]);
  });

  it("keeps in the address what differs from the plain queue", () => {
    const filter = readQueueFilter({ stage: "ended", kit: " DRV-1 ", page: "3" });
    expect(queueAddress(filter)).toBe("/queue?stage=ended&kit=DRV-1");
    expect(queueAddress(filter, { page: 4 })).toBe("/queue?stage=ended&kit=DRV-1&page=4");
    expect(queueAddress(readQueueFilter({}))).toBe("/queue");
  });
});

describe("a customer who has written", () => {
  const write = (name: string, hours: number) => database().message.create({ data: { claimId: ids.get(name) ?? "", from: "customer", body: "Any news?", createdAt: at(hours) } });
  const answer = (name: string, hours: number, action: string) => database().auditEntry.create({ data: { claimId: ids.get(name) ?? "", actorKind: "staff", personId: support.personId, action, at: at(hours) } });

  it("is marked and comes after who has no answer yet, an ended claim too, until staff answer", async () => {
    await write("answered lately", -5);
    await write("answered lately", -3);
    await write("settled", -2);
    await write("due", -1);
    const queue = await shown();
    expect(namesOf(queue)).toEqual(["must stand still", "must stand still, answered", "late", "due", "can wait", "answered lately", "can wait, worth less", "settled", "answered long ago"]);
    expect(queue.rows.map(({ wrote, reason }) => [wrote, reason]).filter(([wrote]) => wrote)).toEqual([
      ["wrote to us 1 hour ago", "answer due in 3 hours"],
      ["wrote to us 5 hours ago", "to be decided"],
      ["wrote to us 2 hours ago", "ended"],
    ]);
    expect(queue).toMatchObject({ waiting: 9, late: 1, mustStandStill: 2 });
    expect(queue.rows[7]).toMatchObject({ isLate: false, stopsEngine: false });
    expect(namesOf(await shown({ mark: "wrote" }))).toEqual(["due", "answered lately", "settled"]);
    expect(await loadPlaceInQueue(support, ids.get("settled") ?? "", readQueueFilter({}), NOW)).toMatchObject({ place: 8, of: 9 });

    await answer("answered lately", -4, "write_message");
    await answer("settled", -1, "hand_over");
    await database().auditEntry.create({ data: { claimId: ids.get("settled") ?? "", actorKind: "customer", action: "write_message", at: at(-2) } });
    const waitingWords = async () => (await shown()).rows.flatMap(({ wrote }) => wrote ?? []);
    expect(await waitingWords()).toEqual(["wrote to us 1 hour ago", "wrote to us 3 hours ago", "wrote to us 2 hours ago"]);
    await answer("answered lately", -1, "ask_for_check");
    const customerOf = async () => {
      const claim = await loadClaim(support, ids.get("settled") ?? "", NOW);
      return claim.ok ? claim.customer : null;
    };
    expect(await customerOf()).toMatchObject({ wrote: "wrote to us 2 hours ago" });
    expect(await needNoAnswer(support, ids.get("settled") ?? "")).toEqual({ ok: true });
    expect(await customerOf()).toMatchObject({ wrote: null });
    await answer("due", 0, "decide");
    expect(await waitingWords()).toEqual([]);

    // Who writes why they take the complaint back waits for nobody.
    await write("settled", 3);
    await database().auditEntry.create({ data: { claimId: ids.get("settled") ?? "", actorKind: "customer", action: "withdraw", at: at(3) } });
    expect((await shown()).total).toBe(8);
  });

  it("waits no more once the message is removed", async () => {
    const { id } = await write("due", 1);
    expect(namesOf(await shown({ mark: "wrote" }))).toEqual(["due"]);
    await database().message.delete({ where: { id } });
    expect(namesOf(await shown({ mark: "wrote" }))).toEqual([]);
  });
});

it("is not for a product manager, who is told so", async () => {
  const product = await aStaffActor("product");
  expect(await loadQueue(product, readQueueFilter({}), NOW)).toEqual({ ok: false, reason: "not-allowed" });
  expect(await database().auditEntry.count({ where: { personId: product.personId, action: "refused" } })).toBe(1);
});
