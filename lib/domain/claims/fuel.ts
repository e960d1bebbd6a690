import { answer, type IntakeAnswers } from "../intake/answers";

/** What a claim's engine burns: of the catalogue's vehicle, else as the customer told, else not known. */
export function fuelOf({ vehicle, answers }: { vehicle: { fuel: string } | null; answers: IntakeAnswers }): string | undefined {
  return vehicle?.fuel ?? answer(answers, "vehicle", "fuel");
}
