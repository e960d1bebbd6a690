import "server-only";
import type { Db } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { listObservations } from "@/lib/data/findings";
import { findContextOfClaim, findFilerOfClaim, findFuelOfClaim, insertRanking } from "@/lib/data/rankings";
import { loadSettings } from "@/lib/data/settings";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import { fittingObservations } from "@/lib/domain/diagnosis/fitting-observations";
import { stakesOf } from "@/lib/domain/diagnosis/stakes";
import { valueOfLooking } from "@/lib/domain/diagnosis/value-of-looking";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";

/**
 * Ranks a claim anew from the findings that stand and keeps the ranking, in the transaction of the finding that
 * changed it. Part of other operations, which have checked who asks.
 */
export async function rankClaim(db: Db, claimId: string): Promise<{ rankingId: string; ranking: Ranking }> {
  const edition = editionForFuel(await loadEditionInForce(db), await findFuelOfClaim(db, claimId));
  const observations = fittingObservations(await listObservations(db, claimId), edition);
  const context = await findContextOfClaim(db, claimId);
  const ranking = rankCauses(observations, edition, context);
  const lookValue = valueOfLooking(observations, edition, { filedBy: await findFilerOfClaim(db, claimId), stakes: stakesOf(await loadSettings(db)), context });
  const { id } = await insertRanking(db, claimId, observations, ranking, lookValue);
  return { rankingId: id, ranking };
}
