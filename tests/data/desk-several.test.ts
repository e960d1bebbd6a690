import { expect, describe, test } from "vitest";
import { database } from "@/lib/data/client";
import { severalSchema } from "@/lib/inputs/several-claims";
import { actOnSeveral, previewSeveral } from "@/lib/operations/act-on-several";
import { askForCheck } from "@/lib/operations/ask-for-check";
import { keepFilter, removeFilter, startAddress, startWithFilter } from "@/lib/operations/saved-filters";
import { takeClaim } from "@/lib/operations/take-claim";
import { listHandOverNotes } from "@/lib/data/hand-overs";
import { listSavedFilters } from "@/lib/data/saved-filters";
import { aClaim } from "../builders/a-claim";
import { aStaffActor } from "../builders/a-person";
import { aForm } from "../builders/intake";

const claimRow = (id: string) => database().claim.findUniqueOrThrow({ where: { id } });
const notDone = (several: Awaited<ReturnType<typeof actOnSeveral>>) => (several.ok ? several.rows.map(({ notDone: why }) => why) : several.reason);

describe("an act on several claims", () => {
  test("takes what is nobody's, passes over the rest with the reason, and changes nothing when it is posted again", async () => {
    const [me, colleague] = [await aStaffActor("support"), await aStaffActor("support")];
    const [free, theirs, ended] = [await aClaim({ stage: "filed" }), await aClaim({ stage: "filed" }), await aClaim({ stage: "withdrawn" })];
    await takeClaim(colleague, theirs.id, { from: null, to: colleague.personId });
    const ids = [free.id, theirs.id, ended.id];
    expect(notDone(await previewSeveral(me, "take", ids))).toEqual([null, "somebodys", "ended"]);
    expect((await claimRow(free.id)).assignedToId).toBeNull();
    expect(notDone(await actOnSeveral(me, "take", ids))).toEqual([null, "somebodys", "ended"]);
    expect(await claimRow(free.id)).toMatchObject({ assignedToId: me.personId, stage: "in_review" });
    expect(notDone(await actOnSeveral(me, "take", ids))).toEqual(["mine-already", "somebodys", "ended"]);
    expect(await database().auditEntry.count({ where: { claimId: free.id, action: "hand_over" } })).toBe(1);
  });

  test("is done once when two people do it at once", async () => {
    const [me, colleague] = [await aStaffActor("support"), await aStaffActor("support")];
    const ids = await Promise.all([1, 2, 3].map(async () => (await aClaim({ stage: "filed" })).id));
    const both = await Promise.all([actOnSeveral(me, "take", ids), actOnSeveral(colleague, "take", [...ids].reverse())]);
    expect(both.flatMap(notDone).filter((why) => why === null)).toHaveLength(3);
    for (const id of ids) expect(await database().auditEntry.count({ where: { claimId: id, action: "hand_over" } })).toBe(1);
  });

  test("hands over with a word along, which stands beside the claim until it changes hands again", async () => {
    const [me, colleague] = [await aStaffActor("support"), await aStaffActor("support")];
    const { id } = await aClaim({ stage: "in_review" });
    expect(notDone(await actOnSeveral(me, "hand_over", [id], { to: colleague.personId, note: "Knows the customer" }))).toEqual([null]);
    expect((await listHandOverNotes([id])).get(id)).toEqual({ from: me.name, to: colleague.personId, words: "Knows the customer" });
    await takeClaim(me, id, { from: colleague.personId, to: me.personId });
    expect((await listHandOverNotes([id])).get(id)).toBeUndefined();
  });

  test("sets aside only what waits for an answer, and reminds only of open checks, once a day", async () => {
    const me = await aStaffActor("support");
    const [wrote, quiet, asked] = [await aClaim(), await aClaim(), await aClaim()];
    await database().message.create({ data: { claimId: wrote.id, from: "customer", body: "Thank you!" } });
    expect(notDone(await actOnSeveral(me, "need_no_answer", [wrote.id, quiet.id]))).toEqual([null, "nothing-to-answer"]);
    expect((await claimRow(wrote.id)).wroteAt).toBeNull();
    expect(await askForCheck(me, asked.id, "F12", aForm({ note: "" }))).toMatchObject({ ok: true });
    expect(notDone(await actOnSeveral(me, "remind", [asked.id, quiet.id]))).toEqual([null, "no-open-check"]);
    expect(notDone(await actOnSeveral(me, "remind", [asked.id]))).toEqual(["reminded-today"]);
    expect(await database().outgoingMail.count({ where: { claimId: asked.id, onceKey: { startsWith: "remind-now:" } } })).toBe(1);
  });

  test("never decides one, and takes only what is a claim", () => {
    expect(severalSchema.parse({ act: "decide", claim: "x" })).toEqual({ act: "take", claim: [] });
    expect(severalSchema.parse({ act: "remind" })).toEqual({ act: "remind", claim: [] });
  });
});

describe("views of the queue", () => {
  test("are a person's own, replaced by their name, and one may open after signing in", async () => {
    const [me, colleague] = [await aStaffActor("support"), await aStaffActor("support")];
    expect(await keepFilter(me, { name: "Late ones", query: "mark=late&bogus=1" })).toEqual({ ok: true, address: "/queue?mark=late" });
    expect(await keepFilter(me, { name: "Late ones", query: "mark=late&sort=value" })).toEqual({ ok: true, address: "/queue?mark=late&sort=value" });
    const [kept, ...more] = await listSavedFilters(me.personId);
    expect(more).toEqual([]);
    expect(kept).toMatchObject({ name: "Late ones", query: "mark=late&sort=value", isStart: false });
    await startWithFilter(colleague, kept?.id ?? null);
    expect(await startAddress(me.personId)).toBeNull();
    await startWithFilter(me, kept?.id ?? null);
    expect(await startAddress(me.personId)).toBe("/queue?mark=late&sort=value");
    await startWithFilter(me, null);
    expect(await startAddress(me.personId)).toBeNull();
    await removeFilter(colleague, kept?.id ?? "");
    expect(await listSavedFilters(me.personId)).toHaveLength(1);
    await removeFilter(me, kept?.id ?? "");
    expect(await listSavedFilters(me.personId)).toEqual([]);
  });

  test("need a name, and are twelve at most, however many are kept at once", async () => {
    const me = await aStaffActor("support");
    expect(await keepFilter(me, { name: "  ", query: "" })).toMatchObject({ ok: false, reason: "refused" });
    const kept = await Promise.all(Array.from({ length: 15 }, (_, number) => keepFilter(me, { name: `View ${number}`, query: "" })));
    expect(kept.filter(({ ok }) => ok)).toHaveLength(12);
    expect(kept.filter((one) => !one.ok && one.reason === "too-many")).toHaveLength(3);
  });
});
