import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { addPlace, retirePlace } from "@/lib/operations/change-places";
import { authoriseReturn } from "@/lib/operations/authorise-return";
import { closeParcel } from "@/lib/operations/decide-on-parcel";
import { handOver } from "@/lib/operations/hand-over";
import { loadReturns } from "@/lib/operations/load-returns";
import { receiveReturn } from "@/lib/operations/receive-return";
import { takeInParcel } from "@/lib/operations/take-in-parcel";
import { aClaim } from "@/tests/builders/a-claim";
import { aStaffActor } from "@/tests/builders/a-person";

let support: StaffActor;
let bench: StaffActor;
let other: StaffActor;
let codes: Readonly<Record<"bench" | "shelf" | "out", string>>;

async function codeOf(kind: "bench" | "shelf" | "out"): Promise<string> {
  return (await database().place.findFirstOrThrow({ where: { kind, retiredAt: null }, orderBy: { position: "asc" } })).code;
}

beforeAll(async () => {
  support = await aStaffActor("support");
  bench = await aStaffActor("bench");
  other = await aStaffActor("bench");
  codes = { bench: await codeOf("bench"), shelf: await codeOf("shelf"), out: await codeOf("out") };
});

async function aUnitAtTheDoor() {
  const claim = await aClaim();
  const authorised = await authoriseReturn(support, claim.id, { version: 0, note: "" });
  if (!authorised.ok) throw new Error(authorised.reason);
  const { id } = await database().return.findUniqueOrThrow({ where: { number: authorised.number } });
  await receiveReturn(bench, { returnId: id, serialSeen: "" });
  const parcel = await database().parcel.findUniqueOrThrow({ where: { returnId: id } });
  return { returnId: id, parcelId: parcel.id };
}

const step = (parcelId: string, seen: number, to: string) => ({ parcelId, seen, to, condition: null, note: "" });
const stateOf = async (id: string) => (await database().return.findUniqueOrThrow({ where: { id } })).state;

describe("a unit at the door", () => {
  test("of two who scan it at once, is handed over once, and the other is told by whom and where to", async () => {
    const { parcelId } = await aUnitAtTheDoor();
    const both = await Promise.all([handOver(bench, step(parcelId, 1, codes.bench)), handOver(other, step(parcelId, 1, codes.shelf))]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toMatchObject({ reason: "moved-meanwhile" });
    expect(await database().handover.count({ where: { parcelId } })).toBe(2);
  });

  test("handed over twice by one person, since no answer came to the first, is handed over once", async () => {
    const { parcelId } = await aUnitAtTheDoor();
    for (const _ of ["sent", "sent again"]) expect(await handOver(bench, step(parcelId, 1, codes.bench))).toMatchObject({ ok: true });
    expect(await database().handover.count({ where: { parcelId } })).toBe(2);
    expect(await handOver(other, step(parcelId, 1, codes.bench))).toMatchObject({ reason: "moved-meanwhile" });
  });

  test("of two who receive it at once, is received once", async () => {
    const claim = await aClaim();
    await authoriseReturn(support, claim.id, { version: 0, note: "" });
    const { id } = await database().return.findFirstOrThrow({ where: { claimId: claim.id } });
    const both = await Promise.all([bench, other].map((actor) => receiveReturn(actor, { returnId: id, serialSeen: "" })));
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(await database().parcel.count({ where: { returnId: id } })).toBe(1);
  });

  test("goes to the bench and to a shelf, and its return follows; out of the house it may not go", async () => {
    const { parcelId, returnId } = await aUnitAtTheDoor();
    expect(await handOver(bench, step(parcelId, 1, codes.out))).toEqual({ ok: false, reason: "not-from-here" });
    expect(await handOver(bench, step(parcelId, 1, codes.bench))).toMatchObject({ ok: true });
    expect(await stateOf(returnId)).toBe("on_the_bench");
    expect(await handOver(bench, step(parcelId, 2, codes.bench))).toEqual({ ok: false, reason: "there-already" });
    expect(await handOver(bench, step(parcelId, 2, codes.shelf))).toMatchObject({ ok: true });
    expect(await stateOf(returnId)).toBe("received");
    expect(await handOver(bench, step(parcelId, 3, "NOWHERE"))).toEqual({ ok: false, reason: "unknown-place" });
  });
});

test("a parcel without a number waits in quarantine until somebody decides, once", async () => {
  const taken = await takeInParcel(bench, { id: randomUUID(), returnNumber: "", reason: "no_number", holds: "A turbocharger in a crate", serial: "", sender: "", condition: "leaking", note: "" });
  expect(taken).toMatchObject({ ok: true });
  const parcel = await database().parcel.findFirstOrThrow({ where: { holds: "A turbocharger in a crate" }, include: { handovers: { include: { to: true } } } });
  expect(parcel.handovers.at(-1)?.to.kind).toBe("quarantine");
  const waiting = await loadReturns(bench);
  expect(waiting.ok && waiting.strays.map(({ number }) => number)).toContain(parcel.number);
  expect(await handOver(bench, step(parcel.id, parcel.handovers.length, codes.out))).toEqual({ ok: false, reason: "not-from-here" });
  const both = await Promise.all([closeParcel(support, parcel.id, { closing: "Sent back to the sender." }), closeParcel(support, parcel.id, { closing: "Scrapped." })]);
  expect(both.filter(({ ok }) => ok)).toHaveLength(1);
  expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, reason: "decided-meanwhile" });
});

test("a parcel that is sent twice, since no answer came to the first, is taken in once and keeps its number", async () => {
  const parcel = { id: randomUUID(), returnNumber: "", reason: "no_number", holds: "A hose", serial: "", sender: "", condition: null, note: "" } as const;
  const first = await takeInParcel(bench, parcel);
  expect(first).toMatchObject({ ok: true });
  expect(await takeInParcel(bench, parcel)).toEqual(first);
  expect(await database().parcel.count({ where: { id: parcel.id } })).toBe(1);
});

test("a place is added once under its code, and the last of its kind cannot be given up", async () => {
  const admin = await aStaffActor("admin");
  const place = { code: "SHELF-77", name: "Shelf 77", kind: "shelf", position: 77 } as const;
  expect(await addPlace(admin, place)).toEqual({ ok: true });
  expect(await addPlace(admin, place)).toEqual({ ok: false, reason: "code-taken" });
  expect(await retirePlace(admin, place.code, true)).toEqual({ ok: true });
  const doors = await database().place.findMany({ where: { kind: "door", retiredAt: null } });
  for (const { code } of doors.slice(1)) await retirePlace(admin, code, true);
  expect(await retirePlace(admin, doors[0]?.code ?? "", true)).toEqual({ ok: false, reason: "last-of-its-kind" });
});
