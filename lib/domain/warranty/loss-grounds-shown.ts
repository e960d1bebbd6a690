import type { CauseCode } from "../diagnosis/knowledge";
import type { Ranking } from "../diagnosis/ranking";
import { LOSS_GROUNDS, LOSS_GROUNDS_KNOWN, type LossGround } from "./terms";

/** From here on a cause is likelier there than not. */
const LIKELY = 0.5;

/**
 * The grounds by which a warranty may be lost that a verdict names as causes, and those that a ranking holds for likelier
 * than not. A ground no cause shows is a person's to see.
 *
 * Example: a verdict on C14 shows that the unit was starved of oil.
 */
export function lossGroundsShown(verdictCauses: readonly CauseCode[], ranking: Ranking | null): { lossFound: LossGround[]; lossLikely: LossGround[] } {
  const likely = ranking?.outcome === "ranked" && verdictCauses.length === 0 ? ranking.causes.filter(({ probability }) => probability >= LIKELY).map(({ code }) => code) : [];
  const among = (causes: readonly CauseCode[]) => LOSS_GROUNDS.filter((ground) => LOSS_GROUNDS_KNOWN[ground].causes.some((cause) => causes.includes(cause)));
  return { lossFound: among(verdictCauses), lossLikely: among(likely) };
}
