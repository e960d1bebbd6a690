import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { HIT_END, HIT_START } from "@/lib/domain/claims/search-marks";
import { makeReference } from "@/lib/domain/claims/reference";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { searchForClaims } from "@/lib/operations/search-claims";
import { aStaffActor } from "../builders/a-person";

let support: StaffActor;
const ids = new Map<string, { id: string; reference: string }>();

async function make(name: string, stage: ClaimStage, more: { contactName?: string; contactEmail?: string; contactPhone?: string; serial?: string; orderNumber?: string; description?: string } = {}) {
  const now = new Date();
  const claim = await database().claim.create({
    data: {
      reference: makeReference(crypto.getRandomValues(new Uint8Array(64))),
      filingKey: randomUUID(),
      stage,
      filedBy: "customer",
      contactName: "Nobody Known",
      contactEmail: "nobody@example.com",
      ...(stage === "draft" ? {} : { filedAt: now, promisedAt: now }),
      ...(stage === "settled" ? { decidedAt: now, settledAt: now } : {}),
      ...more,
    },
    select: { id: true, reference: true },
  });
  ids.set(name, claim);
  return claim;
}

async function found(q: string, actor = support) {
  const result = await searchForClaims(actor, q);
  if (!result.ok) throw new Error(result.reason);
  return result;
}
const namesOf = ({ found: claims }: Awaited<ReturnType<typeof found>>) => claims.map(({ id }) => [...ids].find(([, claim]) => claim.id === id)?.[0]);

beforeAll(async () => {
  support = await aStaffActor("support");
  await make("person", "in_review", { contactName: "J\u00fcrgen \u00d6rnek", contactEmail: "j.oernek@garage.example", contactPhone: "+49 (0)171 / 445 566" });
  await make("numbers", "filed", { serial: "T62-118840", orderNumber: "BT-77001" });
  await make("words", "settled", { description: "The gasket at the sump flange weeps since the first drive." });
  await make("other words", "filed", { description: "Nothing to see." });
  await make("draft", "draft", { contactName: "J\u00fcrgen Draft", description: "The gasket of a draft.", serial: "T62-118841" });
  const { personId } = support;
  await database().message.create({ data: { claimId: ids.get("other words")?.id ?? "", from: "customer", body: "Der \u00d6lr\u00fccklauf f\u00e4llt durchgehend, ich habe nachgemessen." } });
  await database().deskNote.create({ data: { claimId: ids.get("numbers")?.id ?? "", personId, body: "Rang twice, the voicemail is full." } });
  await database().return.create({ data: { claimId: ids.get("words")?.id ?? "", number: "R-4711-QX", state: "authorised", authorisedById: personId, expiresAt: new Date(Date.now() + 86_400_000), trackingNumber: "00340434161094" } });
});

describe("search", () => {
  it.each([
    ["t62 118840", "numbers", "serial"],
    ["118840", "numbers", "serial"],
    ["bt-77001", "numbers", "order"],
    ["R-4711", "words", "return"],
    ["0034 0434 161094", "words", "parcel"],
    ["jurgen ornek", "person", "name"],
    ["OERNEK@garage", "person", "name"],
    ["Jurgen Orneck", "person", "name"],
    ["0171 445566", "person", "telephone"],
    ["gasket sump", "words", "complaint"],
    ["gask", "words", "complaint"],
    ["olrucklauf", "other words", "message"],
    ["\u00d6lr\u00fccklauf", "other words", "message"],
    ["voicemail", "numbers", "note"],
  ])("for %s finds the claim by its %s: %s", async (q, name, place) => {
    const result = await found(q);
    expect(namesOf(result)).toEqual([name]);
    expect(result.found[0]?.hits[0]?.place).toBe(place);
  });

  it("shows the words around what was found", async () => {
    expect((await found("sump flange")).found[0]?.hits[0]?.excerpt).toContain(`${HIT_START}sump${HIT_END} ${HIT_START}flange${HIT_END}`);
  });

  it("finds a reference in any grouping, and suggests the one that was meant when a sign is wrong", async () => {
    const { reference } = ids.get("words") ?? { reference: "" };
    expect(namesOf(await found(reference.toLowerCase().replaceAll("-", " ")))).toEqual(["words"]);
    const typed = `${reference.startsWith("2") ? "3" : "2"}${reference.slice(1)}`;
    const result = await found(typed);
    expect(result.meant).toContain(reference);
    expect((await found(reference)).meant).toEqual([]);
  });

  it.each(["%", "_", "\\", "' OR 1=1 --", "!", "& | :*", "a".repeat(100), ""])("takes %s as typed, and finds nothing by it", async (q) => {
    expect((await found(q)).found).toEqual([]);
  });

  it("puts a whole number before a part of one", async () => {
    await make("longer", "filed", { serial: "T62-1188405" });
    expect(namesOf(await found("T62-118840"))).toEqual(["numbers", "longer"]);
  });

  it("finds no people and no words for a product manager, and numbers all the same", async () => {
    const product = await aStaffActor("product");
    for (const q of ["jurgen", "j.oernek@garage.example", "0171 445566", "gasket", "voicemail", "\u00d6lr\u00fccklauf"]) expect((await found(q, product)).found).toEqual([]);
    expect(namesOf(await found("BT-77001", product))).toEqual(["numbers"]);
  });
});
