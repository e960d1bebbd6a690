import { expect, test } from "vitest";
import { database } from "@/lib/data/client";
import { loadEdition } from "@/lib/data/editions";
import type { Prisma } from "@/lib/data/generated/client";
import { findFuelOfClaim, findLatestRanking } from "@/lib/data/rankings";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { loadClaim } from "@/lib/operations/load-claim";
import { aStaffActor } from "@/tests/builders/a-person";
import { earlierForm } from "@/tests/builders/an-earlier-ranking";
import { aFiledClaim } from "@/tests/builders/intake";

async function keptRankingOf(claimId: string) {
  const kept = await findLatestRanking(claimId);
  if (kept?.ranking.outcome !== "ranked") throw new Error("a filed claim is ranked");
  return { ...kept, ranking: kept.ranking };
}

test("a kept ranking comes with what it was made from, and is made again exactly", async () => {
  const { claimId } = await aFiledClaim();
  const { ranking, observations } = await keptRankingOf(claimId);
  const edition = editionForFuel(await loadEdition(ranking.edition), await findFuelOfClaim(database(), claimId));
  expect(observations.length).toBeGreaterThan(0);
  expect(rankCauses(observations, edition, ranking.context)).toEqual(ranking);
});

test("a ranking kept in the earlier form shows the same claim", async () => {
  const [{ claimId }, support] = [await aFiledClaim(), await aStaffActor("support")];
  const before = await loadClaim(support, claimId);
  const { id, ranking } = await keptRankingOf(claimId);
  await database().ranking.update({ where: { id }, data: { result: earlierForm(ranking) as unknown as Prisma.InputJsonObject } });
  const after = await loadClaim(support, claimId);
  if (!before.ok || !after.ok) throw new Error("support may see a claim");
  expect(after.kept?.ranking).toEqual(before.kept?.ranking);
  expect(after.explanation).toEqual(before.explanation);
  expect(after.explanation?.open.length).toBeGreaterThan(0);
});
