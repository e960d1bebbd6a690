import "server-only";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { inTransaction } from "./client";
import { insertShippedEdition, lockEditions } from "./editions";

/**
 * What every installation has, the demo or not: the edition of the knowledge that the program ships, in force where
 * it is the first, and one row of settings to be filled in. Safe to run again: what is there stays.
 *
 * @param edition as it passed its schema
 */
export async function loadReferenceData(edition: Edition): Promise<void> {
  await inTransaction(async (db) => {
    await lockEditions(db);
    await insertShippedEdition(db, edition);
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
