import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findNextInQueue } from "@/lib/data/queue";
import { byRisk } from "@/lib/domain/claims/queue-order";
import { makeReference } from "@/lib/domain/claims/reference";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { queueAddress, readQueueFilter } from "@/lib/inputs/queue-filter";
import { loadClaim } from "@/lib/operations/load-claim";
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
  more?: { contactName?: string; contactEmail?: string; serial?: string; orderNumber?: string; kitRevisionId?: string; assignedToId?: string };
}

/** Made once; each is known by its name. */
const CLAIMS: Readonly<Record<string, ClaimToMake>> = {
  late: { promised: -30, leader: "C01", unit: 0.02, more: { contactName: "Ada Ornek", contactEmail: "ada@example.com" } },
  due: { promised: 3, leader: "C15", unit: 0.5, more: { serial: "T62-118840", orderNumber: "BT-77001" } },
  "answered long ago": { stage: "awaiting_checks", promised: -400, answered: -410, leader: "C08", unit: 0.01 },
  "answered lately": { stage: "in_review", promised: -500, answered: -2, leader: "C20", unit: 0.03 },
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
  for (const [name, { stage = "filed", promised, answered, leader, unit, stopsEngine = false, more = {} }] of Object.entries(CLAIMS)) {
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
        ...(name === "due" ? { assignedToId: support.personId, kitRevisionId: kit.revisions[0]?.id ?? null } : {}),
        ...more,
      },
    });
  }
});

describe("the order of the queue", () => {
  it("puts engines that must stand still first, then who has no answer by promised time, then who waits longest", async () => {
    expect(namesOf(await shown())).toEqual(["must stand still", "must stand still, answered", "late", "due", "answered long ago", "answered lately"]);
  });

  it("is the same as the domain tells it", async () => {
    const rows = await database().claim.findMany({ where: { id: { in: [...ids.values()] }, stage: { notIn: ["draft", "settled"] } } });
    const sorted = rows.map((row) => ({ ...row, promisedAt: row.promisedAt ?? NOW, wroteAt: null })).sort(byRisk);
    expect((await shown()).rows.map(({ id }) => id)).toEqual(sorted.map(({ id }) => id));
  });

  it("gives each the reason for its place", async () => {
    const reasons = (await shown()).rows.map(({ reason }) => reason);
    expect(reasons).toEqual(["answer due in 20 hours", "waits for the customer", "30 hours late", "answer due in 3 hours", "waits for the customer", "answered, to be decided"]);
  });

  it("counts what waits, what is late and what must stand still, whatever is filtered", async () => {
    expect(await shown({ stage: "settled" })).toMatchObject({ waiting: 6, late: 1, mustStandStill: 2, total: 1 });
  });

  it("can be another", async () => {
    expect(namesOf(await shown({ sort: "unit" }))[0]).toBe("due");
    expect(namesOf(await shown({ sort: "promised" }))[0]).toBe("answered lately");
  });

  it("leads from each claim to the next, and from the last to the one before", async () => {
    const next = async (name: string) => findNextInQueue(ids.get(name) ?? "");
    expect(await next("late")).toEqual({ next: ids.get("due"), place: 3, of: 6 });
    expect(await next("settled")).toEqual({ next: ids.get("must stand still"), place: 0, of: 6 });
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
    [{ q: "ADA@example" }, ["late"]],
    [{ q: "ornek" }, ["late"]],
    [{ q: "118840" }, ["due"]],
    [{ q: "bt-77001" }, ["due"]],
    [{ q: "%" }, []],
    // A search without a stage looks at all of them, drafts excepted.
    [{ q: "T62-200001" }, ["settled"]],
    [{ q: "T62-200001", stage: "open" }, []],
    [{ q: "past@example.com" }, ["settled"]],
    [{ who: "nobody", stage: "in_review" }, ["answered lately"]],
  ])("%j shows %j", async (query, expected) => {
    expect(namesOf(await shown(query))).toEqual(expected);
  });

  it("finds a reference however it is typed, in ended claims too", async () => {
    const { reference } = await database().claim.findUniqueOrThrow({ where: { id: ids.get("settled") ?? "" } });
    expect(namesOf(await shown({ q: reference.toLowerCase().replaceAll("-", " ") }))).toEqual(["settled"]);
  });

  it("never shows a draft, and passes over what it does not understand", async () => {
    expect((await shown({ stage: "draft", page: "none", sort: "bogus", attribution: "them" })).total).toBe(6);
    expect((await shown({ page: ["1", "2"] })).rows).toHaveLength(6);
    expect((await shown({ page: "40" })).rows).toEqual([]);
  });

  it("keeps in the address what differs from the plain queue", () => {
    const filter = readQueueFilter({ stage: "ended", q: " ada ", page: "3" });
    expect(queueAddress(filter)).toBe("/queue?stage=ended&q=ada");
    expect(queueAddress(filter, { page: 4 })).toBe("/queue?stage=ended&q=ada&page=4");
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
    expect(namesOf(queue)).toEqual(["must stand still", "must stand still, answered", "late", "due", "answered lately", "settled", "answered long ago"]);
    expect(queue.rows.map(({ wrote, reason }) => [wrote, reason]).slice(3, 6)).toEqual([
      ["wrote to us 1 hour ago", "answer due in 3 hours"],
      ["wrote to us 5 hours ago", "to be decided"],
      ["wrote to us 2 hours ago", "ended"],
    ]);
    expect(queue).toMatchObject({ waiting: 7, late: 1, mustStandStill: 2 });
    expect(queue.rows[5]).toMatchObject({ isLate: false, stopsEngine: false });
    expect(await findNextInQueue(ids.get("settled") ?? "")).toMatchObject({ place: 6, of: 7 });

    await answer("answered lately", -4, "write_message");
    await answer("settled", -1, "hand_over");
    await database().auditEntry.create({ data: { claimId: ids.get("settled") ?? "", actorKind: "customer", action: "write_message", at: at(-2) } });
    expect((await shown()).rows.map(({ wrote }) => wrote).slice(3)).toEqual(["wrote to us 1 hour ago", "wrote to us 3 hours ago", "wrote to us 2 hours ago", null]);
    await answer("answered lately", -1, "ask_for_check");
    const customerOf = async () => {
      const claim = await loadClaim(support, ids.get("settled") ?? "", NOW);
      return claim.ok ? claim.customer : null;
    };
    expect(await customerOf()).toMatchObject({ wrote: "wrote to us 2 hours ago" });
    expect(await needNoAnswer(support, ids.get("settled") ?? "")).toEqual({ ok: true });
    expect(await customerOf()).toMatchObject({ wrote: null });
    await answer("due", 0, "decide");
    expect((await shown()).rows.map(({ wrote }) => wrote)).toEqual([null, null, null, null, null, null]);

    // Who writes why they take the complaint back waits for nobody.
    await write("settled", 3);
    await database().auditEntry.create({ data: { claimId: ids.get("settled") ?? "", actorKind: "customer", action: "withdraw", at: at(3) } });
    expect((await shown()).total).toBe(6);
  });
});

it("is not for a product manager, who is told so", async () => {
  const product = await aStaffActor("product");
  expect(await loadQueue(product, readQueueFilter({}), NOW)).toEqual({ ok: false, reason: "not-allowed" });
  expect(await database().auditEntry.count({ where: { personId: product.personId, action: "refused" } })).toBe(1);
});
