import type { UnitSystem } from "../claims/unit-systems";
import type { Edition, FindingDefinition } from "../diagnosis/knowledge";
import { METRES_PER, PASCALS_PER } from "../physics/user-units";
import type { Say } from "../say";

/** What an amount of a text becomes: the text's unit, how many of the other one it is, and the name of that one's sign. */
const IMPERIAL: Readonly<Record<string, { factor: number; sign: string }>> = {
  mm: { factor: METRES_PER.mm / METRES_PER.in, sign: "units.in" },
  cm: { factor: 0.01 / METRES_PER.in, sign: "units.in" },
  m: { factor: 1 / METRES_PER.ft, sign: "units.ft" },
  km: { factor: METRES_PER.km / METRES_PER.mi, sign: "units.mi" },
  kPa: { factor: PASCALS_PER.kPa / PASCALS_PER.inH2O, sign: "units.inH2O" },
};

const NUMBER = String.raw`\d(?:[\d.,]*\d)?`;
/** One amount or a range of them, in English or German: "8 mm", "1.0 to 1.5 mm", "5.000 km". */
const AMOUNT = new RegExp(String.raw`(${NUMBER})(?:( to | bis |-)(${NUMBER}))?[ \u00a0](${Object.keys(IMPERIAL).join("|")})(?![\p{L}\d/\u00b2\u00b3])`, "gu");

/** Amounts that a text names in words, as figures. */
const IN_FIGURES: Readonly<Record<string, string>> = { "half a metre": "50 cm", "einen halben Meter": "50 cm" };
const IN_WORDS = new RegExp(Object.keys(IN_FIGURES).join("|"), "g");

/**
 * A text with its amounts in the customer's units. Texts are written in metric units; two figures are kept, since an
 * amount in a sentence is a rough one.
 *
 * Example: "within 5,000 km or 100 hours" is "within 3,100 miles or 100 hours".
 */
export function amountsInUnits(text: string, system: UnitSystem, say: Say): string {
  if (system === "metric") return text;
  const figures = text.replace(IN_WORDS, (words) => IN_FIGURES[words] ?? words);
  return figures.replace(AMOUNT, (whole, first: string, between: string | undefined, second: string | undefined, unit: string) => {
    const other = IMPERIAL[unit];
    if (!other) return whole;
    const turned = (written: string) => new Intl.NumberFormat(say.language, { maximumSignificantDigits: 2 }).format(readIn(say.language, written) * other.factor);
    return `${turned(first)}${between && second ? `${between}${turned(second)}` : ""} ${say(other.sign)}`;
  });
}

/** A number as it is written in that language: 5000 is "5,000" in English and "5.000" in German. */
function readIn(language: Say["language"], written: string): number {
  const [thousands, decimal] = language === "de" ? [".", ","] : [",", "."];
  return Number(written.replaceAll(thousands, "").replace(decimal, "."));
}

/** The edition as this customer reads it: every text that may name an amount, of findings and of causes. */
export function editionInUnits(edition: Edition, system: UnitSystem, say: Say): Edition {
  if (system === "metric") return edition;
  const turned = (text: string) => amountsInUnits(text, system, say);
  return {
    ...edition,
    causes: edition.causes.map((cause) => ({ ...cause, plainName: turned(cause.plainName), advice: turned(cause.advice) })),
    findings: edition.findings.map((finding): FindingDefinition => ({
      ...finding,
      question: turned(finding.question),
      why: turned(finding.why),
      how: turned(finding.how),
      options: finding.options.map((option) => ({ ...option, label: turned(option.label) })),
    })),
  };
}
