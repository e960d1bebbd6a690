import "server-only";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { inTransaction } from "./client";
import type { Prisma } from "./generated/client";

/**
 * What every installation has, the demo or not: edition 1 of the knowledge, in force, and one row of settings to be
 * filled in. Safe to run again: what is there stays.
 */
export async function loadReferenceData(): Promise<void> {
  await inTransaction(async (db) => {
    await db.knowledgeEdition.createMany({
      data: [
        {
          number: edition1.number,
          name: edition1.name,
          document: edition1 as unknown as Prisma.InputJsonObject,
          promotedAt: new Date(),
        },
      ],
      skipDuplicates: true,
    });
    await db.sellerSettings.createMany({
      data: [
        {
          id: 1,
          name: "Your shop",
          returnAddress: "Your address",
          email: "desk@example.com",
          phone: "",
          currency: "EUR",
          timeZone: "Europe/Berlin",
          workingDays: [1, 2, 3, 4, 5],
          opensAt: "08:00",
          closesAt: "17:00",
          promisedAnswerHours: 8,
          returnWithinDays: 21,
        },
      ],
      skipDuplicates: true,
    });
  });
}
