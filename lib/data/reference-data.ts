import "server-only";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { inTransaction } from "./client";
import type { Prisma } from "./generated/client";

/**
 * What every installation has, the demo or not: the first edition of the knowledge, in force, and one row of settings
 * to be filled in. Safe to run again: what is there stays.
 *
 * @param edition as it passed its schema
 */
export async function loadReferenceData(edition: Edition): Promise<void> {
  await inTransaction(async (db) => {
    await db.knowledgeEdition.createMany({
      data: [
        {
          number: edition.number,
          name: edition.name,
          origin: "shipped",
          document: edition as unknown as Prisma.InputJsonObject,
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
