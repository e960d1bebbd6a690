import "server-only";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { queueMail } from "@/lib/data/outgoing-mail";
import { findReturn, listReturnsNearTheirEnd, updateReturn } from "@/lib/data/returns";
import { loadSettings } from "@/lib/data/settings";
import { dueOfReturn, REMIND_DAYS_BEFORE } from "@/lib/domain/claims/return-dates";
import { returnReminderMail } from "@/lib/mail/return-mails";
import { wordsIn } from "@/lib/messages/words";
import { eachByItself } from "./each-by-itself";
import { endReturn } from "./end-return";
import { returnMailFacts } from "./return-mail-facts";

/**
 * Reminds of units that should be here soon, and ends the returns of those that did not come. The hourly job's. Each return
 * by itself and under its claim's lock: whoever says meanwhile that it is on its way comes first or is not too late.
 */
export async function keepReturnDates(now: Date): Promise<{ reminded: number; ended: number }> {
  const [near, seller] = await Promise.all([listReturnsNearTheirEnd(new Date(now.getTime() + REMIND_DAYS_BEFORE * 86_400_000)), loadSettings()]);
  let reminded = 0;
  let ended = 0;
  await eachByItself(near, ({ id, claimId }) =>
    inTransaction(async (db) => {
      await lockClaim(db, claimId);
      const awaited = await findReturn(db, { id });
      if (!awaited) return;
      const due = dueOfReturn(awaited, now);
      if (due === "end" && (await endReturn(db, awaited, { kind: "system" }, seller, now))) ended += 1;
      if (due !== "reminder") return;
      const claim = await findClaimToActOn(claimId, db);
      if (claim?.stage !== "awaiting_the_unit" || !claim.contactEmail) return;
      await updateReturn(db, id, { remindedAt: now });
      const facts = await returnMailFacts(db, claim, awaited, seller, now);
      const to = { name: facts.name, address: claim.contactEmail };
      await queueMail(db, { onceKey: `return-reminder:${awaited.number}:${awaited.expiresAt.toISOString()}`, claimId, to, ...returnReminderMail(facts, wordsIn(claim.language)) });
      await appendAudit(db, { actor: { kind: "system" }, claimId, action: "remind_of_return" });
      reminded += 1;
    }),
  );
  return { reminded, ended };
}
