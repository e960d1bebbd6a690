import type { Edition, FindingCode } from "../diagnosis/knowledge";
import { WITHOUT_WORDS } from "../say";
import { answer, type IntakeAnswers, oilPlace, type Screen } from "./answers";
import { pairAnswer, type PairAnswer } from "./pair-told";
import { FINDINGS_ASKED, type IntakeState, standingAnswers } from "./questions";
import { DONT_KNOW, findingField, SITES } from "./screens";
import { checksTold } from "./told-checks";
import { typedFinding } from "./typed-finding";

/** A finding as the customer told it: an answer of the edition, `unknown`, or a number in the edition's unit. */
export interface ToldFinding {
  code: FindingCode;
  answer: string | null;
  measured: number | null;
  typedValue?: string;
  typedUnit?: string;
  spread?: number;
  /** Where it comes from, if not from the customer's word, or that an unusual number is right. */
  note?: string;
}

/**
 * The findings in a set of answers. Oil seen in one place says nothing of the others unless they were looked at:
 * "could not see" is not "absent".
 */
export function findingsFromAnswers(state: IntakeState, edition: Edition): ToldFinding[] {
  const answers = standingAnswers(state, edition);
  const read = (screen: keyof IntakeAnswers, code: FindingCode): ToldFinding[] => {
    const definition = edition.findings.find((finding) => finding.code === code);
    if (!definition || answer(answers, screen, code) === undefined) return [];
    const found = typedFinding(findingField(definition, WITHOUT_WORDS), answers[screen] ?? {});
    return found.answer === null && found.measured === null ? [] : [found];
  };
  const asked = (Object.keys(FINDINGS_ASKED) as Screen[]).flatMap((screen) => (FINDINGS_ASKED[screen] ?? []).flatMap((code) => read(screen, code)));
  // A place may have been looked at since: what a check found there counts.
  const checked = checksTold(answers).flatMap((code) => read("checks", code));
  const told = [...sitesFrom(oilPlace(answers), answer(answers, "oil", "elsewhere") === "dry"), ...stagingFrom(state, edition), ...asked];
  return [...told.filter(({ code }) => !checked.some((one) => one.code === code)), ...checked];
}

function sitesFrom(place: ReturnType<typeof oilPlace>, othersAreDry: boolean): ToldFinding[] {
  const wet = place === "both" ? ["turbine", "compressor"] : place === undefined || place === "unseen" ? [] : [place];
  const others = place !== "both" && place !== "unseen" && othersAreDry ? "absent" : DONT_KNOW;
  return (Object.keys(SITES) as (keyof typeof SITES)[]).map((site) => ({ code: SITES[site], answer: wet.includes(site) ? "present" : others, measured: null }));
}

/** Which unit of a set it is: as the customer said of a pair, else as the catalogue tells of the kit, so that it is not asked again. */
function stagingFrom(state: IntakeState, edition: Edition): ToldFinding[] {
  const said = pairAnswer(state);
  const told = said === undefined ? state.purchase.staging?.replace("_", "-") : AS_STAGING[said];
  const isWorded = edition.findings.some(({ code, options }) => code === STAGING && (told === DONT_KNOW || options.some(({ value }) => value === told)));
  return told && isWorded ? [{ code: STAGING, answer: told, measured: null, ...(said === undefined ? { note: FROM_CATALOGUE } : said === "both" ? { note: OF_BOTH } : {}) }] : [];
}

/** Of both, the small one is ranked: the film that is normal in the large one does not explain why the small one leaks. */
const AS_STAGING: Readonly<Record<PairAnswer, string>> = { large: "low-pressure", small: "high-pressure", both: "high-pressure", single: "single", unknown: DONT_KNOW };

const STAGING: FindingCode = "F37";

const FROM_CATALOGUE = "from the catalogue";
const OF_BOTH = "both units leak: ranked for the small one, since a film is normal in the large one alone";

/** Notes of findings that were concluded, and not told in these words. */
export const CONCLUDED: ReadonlySet<string> = new Set([FROM_CATALOGUE, OF_BOTH]);
