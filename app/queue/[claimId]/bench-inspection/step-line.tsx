import Link from "next/link";
import { BENCH_STEP_WORDS, type BenchStep } from "@/lib/domain/claims/bench-steps";
import type { StepOnSheet } from "@/lib/operations/load-inspection";
import styles from "./inspection.module.css";

const stateOf = ({ kept }: StepOnSheet) => (kept === null ? "open" : kept.isSkipped ? "skipped" : "kept");

/** The steps as numbered balloons on a line: filled is kept, dashed is skipped. Each leads back to its step. */
export function StepLine({ claimId, steps, current }: { claimId: string; steps: readonly StepOnSheet[]; current: BenchStep | null }) {
  return (
    <nav aria-label="Steps of the inspection" className={`${styles.line} no-print`}>
      <ol>
        {steps.map((one, index) => (
          <li key={one.step}>
            <Link href={`/queue/${claimId}/bench-inspection?step=${one.step}`} className={styles[stateOf(one)]} {...(one.step === current ? { "aria-current": "step" as const } : {})}>
              {index + 1}
              <span className="visually-hidden">
                {" "}
                {BENCH_STEP_WORDS[one.step].name}, {stateOf(one)}
              </span>
            </Link>
          </li>
        ))}
        <li>
          <Link href={`/queue/${claimId}/bench-inspection?step=summary`} className={styles.end} {...(current === null ? { "aria-current": "step" as const } : {})}>
            All
            <span className="visually-hidden"> steps and the end</span>
          </Link>
        </li>
      </ol>
    </nav>
  );
}
