import { describe, expect, test } from "vitest";
import { database } from "@/lib/data/client";
import { writeCustomerMessage } from "@/lib/operations/write-customer-message";
import { writeStaffMessage } from "@/lib/operations/write-staff-message";
import { aStaffActor } from "@/tests/builders/a-person";
import { aFiledClaim, aForm } from "@/tests/builders/intake";

const messages = (claimId: string) => database().message.findMany({ where: { claimId }, select: { from: true, body: true } });
const anHourAgo = (claimId: string) => database().message.updateMany({ where: { claimId }, data: { createdAt: new Date(Date.now() - 3_600_000) } });

describe("a message posted twice at once, and once more", () => {
  test("by staff is one message and one mail", async () => {
    const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
    const write = () => writeStaffMessage(support, claimId, aForm({ body: "Leave the engine off." }));
    expect([...(await Promise.all([write(), write()])), await write()]).toEqual([{ ok: true }, { ok: true }, { ok: true }]);
    expect(await messages(claimId)).toHaveLength(1);
    expect(await database().outgoingMail.count({ where: { claimId, onceKey: { startsWith: "message:" } } })).toBe(1);
    expect(await database().auditEntry.count({ where: { claimId, action: "write_message" } })).toBe(1);
  });

  test("by a customer is one message", async () => {
    const customer = await aFiledClaim();
    const write = () => writeCustomerMessage(customer, aForm({ body: "Still dripping" }));
    expect([...(await Promise.all([write(), write()])), await write()]).toEqual([{ ok: true }, { ok: true }, { ok: true }]);
    expect(await messages(customer.claimId)).toHaveLength(1);
  });

  test("is another message after a while, and when the other side has the same words", async () => {
    const [customer, support] = [await aFiledClaim(), await aStaffActor("support")];
    const body = aForm({ body: "Any news?" });
    await writeCustomerMessage(customer, body);
    await anHourAgo(customer.claimId);
    await writeCustomerMessage(customer, body);
    await writeStaffMessage(support, customer.claimId, body);
    expect((await messages(customer.claimId)).map(({ from }) => from).sort()).toEqual(["customer", "customer", "staff"]);
  });
});
