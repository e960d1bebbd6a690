import type { FindingCode } from "../diagnosis/knowledge";
import type { IntakeAnswers, Screen } from "./answers";
import { FINDINGS_ASKED } from "./questions";

const isCode = (name: string) => /^F\d+$/.test(name);
/** Whether a field holds the answer to this finding, or stands beside it: its unit, that it is right, its way. */
const belongsTo = (code: FindingCode) => (name: string) => name === code || name.startsWith(`${code}-`);
const without = (values: Readonly<Record<string, string>>, isLeftOut: (name: string) => boolean) => Object.fromEntries(Object.entries(values).filter(([name]) => !isLeftOut(name)));

/** The findings told by checks made before filing, on screens not answered. */
export function checksTold(answers: IntakeAnswers): FindingCode[] {
  return Object.keys(answers.checks ?? {}).filter(isCode);
}

/**
 * The answers with what a free check has found. It stands once: on the screen that asks for it where that was answered,
 * else among the checks until it is.
 *
 * Example: F12 checked after its screen was answered with "I don't know" changes that answer; before, it stands under `checks`.
 */
export function withCheck(code: FindingCode, values: Readonly<Record<string, string>>, answers: IntakeAnswers): IntakeAnswers {
  const screen = (Object.keys(FINDINGS_ASKED) as Screen[]).find((one) => answers[one] && FINDINGS_ASKED[one]?.includes(code)) ?? "checks";
  return { ...answers, [screen]: { ...without(answers[screen] ?? {}, belongsTo(code)), ...values } };
}

/** The answers once a screen is: what it asks for is no longer kept among the checks. */
export function withoutChecksOf(screen: Screen, answers: IntakeAnswers): IntakeAnswers {
  const asked = FINDINGS_ASKED[screen] ?? [];
  return answers.checks ? { ...answers, checks: without(answers.checks, (name) => asked.some((code) => belongsTo(code)(name))) } : answers;
}

/** What a screen begins with: its own answers, else what checks have told of what it asks. */
export function valuesOf(screen: Screen, answers: IntakeAnswers): Readonly<Record<string, string>> {
  const asked = FINDINGS_ASKED[screen] ?? [];
  return answers[screen] ?? without(answers.checks ?? {}, (name) => !asked.some((code) => belongsTo(code)(name)));
}
