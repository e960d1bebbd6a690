import { randomUUID } from "node:crypto";
import type { CustomerActor } from "@/lib/access/actors";
import { intakeCustomerByKey } from "@/lib/access/customer";
import type { Screen } from "@/lib/domain/intake/answers";
import type { Language } from "@/lib/domain/claims/languages";
import { fileClaim } from "@/lib/operations/file-claim";
import { saveAnswer } from "@/lib/operations/save-answer";
import { startDraft } from "@/lib/operations/start-draft";

/** A form as a browser posts it. */
export function aForm(values: Readonly<Record<string, string>>): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(values)) form.set(name, value);
  return form;
}

/** The answers of an owner with oil on the turbine side, without a purchase that can be found. */
export const OWNER_ANSWERS: readonly (readonly [Screen, Readonly<Record<string, string>>])[] = [
  ["purchase", { by: "kit" }],
  ["kit", { kit: "unknown" }],
  ["vehicle", { vehicle: "other", words: "Halvorn Carrow 2.0 of 2012", fuel: "diesel" }],
  ["oil", { place: "turbine", elsewhere: "dry" }],
  ["amount", { F04: "present", F06: "present" }],
  ["since", { F07: "first-start" }],
  ["drain", { F12: "present" }],
  ["vent", { F24: "intake" }],
  ["engine", { F22: "absent", F33: "middle" }],
  ["changed", { F08: "vent-sump-or-drain", F11: "had-not-failed" }],
  ["fitting", { fittedOn: "2026-01-15", run: "1250,5", "run-unit": "mi", fitter: "garage", fitterName: "Garage at the bridge", fitterPlace: "Brackenhalt" }],
  ["pictures", { words: "It began on the first drive." }],
  ["contact", { name: "Ada \u00d6rnek \ud83d\ude00", email: "ada@example.com", phone: "" }],
];

/** A draft begun in a browser of its own, with the first screen answered. */
export async function aDraft(who: "owner" | "technician" = "owner", language: Language = "en"): Promise<CustomerActor> {
  const started = await startDraft(aForm({ who }), randomUUID(), randomUUID(), language);
  const customer = started.ok ? await intakeCustomerByKey(started.key) : null;
  if (!customer) throw new Error("the draft did not begin");
  return customer.actor;
}

/** Answers the screens; throws at the first that is refused. */
export async function answerAll(actor: CustomerActor, answers: typeof OWNER_ANSWERS = OWNER_ANSWERS): Promise<void> {
  for (const [screen, values] of answers) {
    const saved = await saveAnswer(actor, screen, aForm(values), randomUUID());
    if (!saved.ok) throw new Error(`${screen}: ${JSON.stringify(saved)}`);
  }
}

/** A filed claim and the customer whose browser follows it. */
export async function aFiledClaim(answers: typeof OWNER_ANSWERS = OWNER_ANSWERS, language: Language = "en"): Promise<CustomerActor> {
  const actor = await aDraft("owner", language);
  await answerAll(actor, answers);
  const filed = await fileClaim(actor, randomUUID());
  if (!filed.ok) throw new Error(`not filed: ${filed.reason}`);
  return actor;
}
