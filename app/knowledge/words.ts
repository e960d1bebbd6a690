import type { EditionAct, EditionOrigin, EditionState, TrialKind } from "@/lib/domain/diagnosis/editions";
import type { Observer } from "@/lib/domain/diagnosis/knowledge";

export const ORIGIN_NAMES: Readonly<Record<EditionOrigin, string>> = { shipped: "shipped with the program", by_hand: "typed by hand", learned: "learned from verdicts" };

export const STATE_NAMES: Readonly<Record<EditionState, string>> = { proposed: "proposed", discarded: "discarded", "in force": "in force", superseded: "superseded" };

export const TRIAL_NAMES: Readonly<Record<TrialKind, string>> = { dry_run: "dry run", backtest: "backtest" };

export const WHO_LOOKS: Readonly<Record<Observer, string>> = { customer: "customer", technician: "technician", bench: "bench" };

/** What the trail tells of an edition, as the rest of a sentence that begins with who did it. */
export const ACT_WORDS: Readonly<Record<EditionAct, string>> = {
  propose_edition: "proposed it",
  promote_edition: "put it in force",
  discard_edition: "discarded it",
  ask_for_dry_run: "asked for a dry run over the stored claims",
};

/** Three digits: more is known of none of these figures. */
export function figure(value: number): string {
  if (!Number.isFinite(value)) return "∞";
  return new Intl.NumberFormat("en", { maximumSignificantDigits: 3, useGrouping: true }).format(value);
}

/** @example a share of 0.95: "95 of 100" */
export const ofHundred = (share: number) => `${figure(share * 100)} of 100`;

/** @example a base figure of 0.0031: "3.1" per 1,000 fitted units */
export const perThousand = (share: number) => figure(share * 1000);

/** @example 12: "12 times as likely"; 0.05: "20 times less likely"; 1: "as likely either way" */
export function ratioInWords(ratio: number): string {
  if (Math.abs(Math.log(ratio)) < 0.01) return "as likely either way";
  return ratio > 1 ? `${figure(ratio)} times as likely` : `${figure(1 / ratio)} times less likely`;
}
