import type { KeptRankingForm } from "@/lib/domain/diagnosis/kept-ranking";
import { evidenceOf, type Ranked } from "@/lib/domain/diagnosis/ranking";

/** A ranking as it was kept before the evidence stood there once for all causes. */
export function earlierForm(ranking: Ranked): KeptRankingForm {
  const { context: _, steps: __, setAside, causes, ...rest } = ranking;
  return {
    ...rest,
    setAside: setAside.map(({ finding }) => finding),
    causes: causes.map((cause) => {
      const { weights: ___, ...one } = cause;
      return { ...one, evidence: evidenceOf(ranking, cause) };
    }),
  };
}
