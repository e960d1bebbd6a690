import "server-only";
import type { KeptParcel } from "@/lib/data/custody";
import { type ParcelCondition, withGaps } from "@/lib/domain/claims/custody";

/** One step of custody as it is told, with what nobody wrote down before it. */
export interface ShownStep {
  number: number;
  at: Date;
  by: string;
  from: string | null;
  to: string;
  condition: ParcelCondition | null;
  note: string;
  /** Last said to be at `from`, then found at `to`, which is null where it came from outside. */
  gap: { from: string; to: string | null; since: Date } | null;
}

/** @param seesWords whether what people typed is for this reader */
export function shownSteps(steps: KeptParcel["handovers"], seesWords: boolean): readonly ShownStep[] {
  return withGaps(steps).map(({ number, at, person, from, to, condition, note, gap }) => ({
    number,
    at,
    by: person.name,
    from: from?.name ?? null,
    to: to.name,
    condition,
    note: seesWords ? note : "",
    gap: gap && { from: gap.from.name, to: gap.to?.name ?? null, since: gap.since },
  }));
}
