import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { CauseCode, FindingCode } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";

/**
 * Rows of the table of ratios that are not figures of the edition, because they follow from other causes being more
 * or less likely: a ratio under 1 on a finding that is there, or over 1 on one that is not.
 */
export const EXPLAINED_AWAY: readonly { finding: FindingCode; state: string | number; cause: CauseCode; tableSays: number }[] = [
  { finding: "F03", state: "present", cause: "C15", tableSays: 0.3 },
  { finding: "F04", state: "absent", cause: "C18", tableSays: 4 },
  { finding: "F04", state: "absent", cause: "C19", tableSays: 4 },
  { finding: "F04", state: "absent", cause: "C20", tableSays: 3 },
  { finding: "F04", state: "absent", cause: "C15", tableSays: 0.5 },
  { finding: "F04", state: "present", cause: "C18", tableSays: 0.1 },
  { finding: "F10", state: "absent", cause: "C20", tableSays: 10 },
  { finding: "F10", state: "present", cause: "C20", tableSays: 0.05 },
  { finding: "F12", state: "present", cause: "C15", tableSays: 0.4 },
  { finding: "F12", state: "present", cause: "C16", tableSays: 0.6 },
  { finding: "F12", state: "present", cause: "C18", tableSays: 0.7 },
  { finding: "F12", state: "absent", cause: "C15", tableSays: 1.6 },
  { finding: "F13", state: 8, cause: "C15", tableSays: 0.5 },
  { finding: "F13", state: 22, cause: "C15", tableSays: 1.8 },
  { finding: "F17", state: "present", cause: "C15", tableSays: 0.3 },
  { finding: "F19", state: "absent", cause: "C15", tableSays: 2 },
  { finding: "F29", state: 0.05, cause: "C15", tableSays: 1.5 },
  { finding: "F29", state: 2, cause: "C01", tableSays: 0.7 },
  { finding: "F31", state: "present", cause: "C08", tableSays: 0.2 },
  { finding: "F41", state: 0.3, cause: "C01", tableSays: 0.6 },
  { finding: "F44", state: "present", cause: "C15", tableSays: 0.5 },
  { finding: "F48", state: "present", cause: "C01", tableSays: 0.1 },
  { finding: "F48", state: "present", cause: "C06", tableSays: 0.1 },
  { finding: "F48", state: "absent", cause: "C01", tableSays: 1.5 },
  { finding: "F48", state: "absent", cause: "C08", tableSays: 1.5 },
  { finding: "F50", state: "present", cause: "C15", tableSays: 0.1 },
];

/** By how much the finding moves the odds of the cause, told by whoever may look, when the turbine side is wet. */
export function oddsRatioOf({ finding, state, cause }: { finding: FindingCode; state: string | number; cause: CauseCode }): number {
  const observer = edition1.findings.find(({ code }) => code === finding)?.observers.includes("technician") ? "technician" : "bench";
  const wet: Observation[] = [{ finding: "F01", observer: "technician", answer: "present" }];
  const looked: Observation = typeof state === "number" ? { finding, observer, measured: state } : { finding, observer, answer: state };
  const oddsOf = (observations: Observation[]) => {
    const ranking = rankCauses(observations, edition1);
    const probability = ranking.outcome === "ranked" ? ranking.causes.find(({ code }) => code === cause)?.probability : undefined;
    if (probability === undefined) throw new Error(`${cause} was not ranked`);
    return probability / (1 - probability);
  };
  return oddsOf([...wet, looked]) / oddsOf(wet);
}
