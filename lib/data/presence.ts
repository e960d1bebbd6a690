import "server-only";
import { goneBefore } from "@/lib/domain/claims/presence";
import { type Db, database } from "./client";

/** A page of a claim is open: this person is in it from now on, and until a minute after the last such sign. */
export async function keepPresence(claimId: string, personId: string, now: Date): Promise<void> {
  await database().claimPresence.upsert({
    where: { claimId_personId: { claimId, personId } },
    create: { claimId, personId, seenAt: now },
    update: { seenAt: now },
  });
}

export async function endPresence(claimId: string, personId: string): Promise<void> {
  await database().claimPresence.deleteMany({ where: { claimId, personId } });
}

/** Who else is in these claims now, by claim. */
export async function listPresent(claimIds: readonly string[], except: string, now: Date): Promise<Map<string, string[]>> {
  const present = await database().claimPresence.findMany({
    where: { claimId: { in: [...claimIds] }, personId: { not: except }, seenAt: { gt: goneBefore(now) } },
    orderBy: { seenAt: "asc" },
    select: { claimId: true, person: { select: { name: true } } },
  });
  const names = new Map<string, string[]>();
  for (const { claimId, person } of present) names.set(claimId, [...(names.get(claimId) ?? []), person.name]);
  return names;
}

/** Removes what stands for nobody any more. */
export async function deletePresenceBefore(db: Db, before: Date): Promise<number> {
  return (await db.claimPresence.deleteMany({ where: { seenAt: { lt: before } } })).count;
}
