import Link from "next/link";
import type { Trial } from "@/lib/operations/load-knowledge";
import { TRIAL_NAMES } from "./words";

/** How far a trial is, in words. */
export function trialState({ startedAt, finishedAt, done, of, failure }: Pick<Trial, "startedAt" | "finishedAt" | "done" | "of" | "failure">): string {
  if (failure) return `failed: ${failure}`;
  if (finishedAt) return "done";
  return startedAt ? `${done.toLocaleString("en")} of ${of.toLocaleString("en")} done` : "waits for the worker";
}

/** The trials of an edition, the newest first. */
export function TrialList({ trials, time }: { trials: readonly Trial[]; time: (at: Date) => string }) {
  if (trials.length === 0) return <p>Not tried yet.</p>;
  return (
    <ul>
      {trials.map((trial) => (
        <li key={trial.id}>
          <Link href={trial.kind === "dry_run" ? `/knowledge/trials/${trial.id}` : "/knowledge/learning"}>{TRIAL_NAMES[trial.kind]}</Link> beside edition {trial.againstNumber}, asked for by {trial.askedBy?.name ?? "the program"} on {time(trial.askedAt)}: {trialState(trial)}
        </li>
      ))}
    </ul>
  );
}
