import type { Attribution, Origin } from "../diagnosis/attributions";
import { cautionInWords, inOneText, stopEngineInWords } from "../diagnosis/cautions";
import { CAUTION_CODES, type Cause, type Edition, type Observer, type StopReason } from "../diagnosis/knowledge";
import { OIL_PATH_PARTS, type OilPathPart } from "../diagnosis/oil-path";
import type { Say } from "../say";
import { shareOut } from "./bearing-shares";
import type { VerdictPromise } from "./bookings";
import { formatMoney } from "./money";
import type { Remedy } from "./remedies";

/** What a letter tells. */
export interface LetterFacts {
  /** Of the customer. */
  name: string;
  reference: string;
  /** Name of the kit or the vehicle, as the customer knows it. */
  about: string | null;
  findings: readonly { part: OilPathPart; name: string; answer: string; observer: Observer }[];
  primary: Cause;
  contributing: readonly Cause[];
  attribution: Attribution;
  origin: Origin | null;
  remedy: Remedy;
  /** The sum, the shares and the deposit that go with the remedy. */
  promise: VerdictPromise;
  /** What was said against the verdict before this one; null where there was none. */
  objection: string | null;
  stop: StopReason | null;
  /** In staff's own words to this customer; may be empty. */
  explanation: string;
  seller: { name: string; phone: string };
}

/**
 * The letter to the customer: a danger first; what it means, what the seller does, what to do next with its cautions,
 * what it rests on with the balloon numbers of the drawing, and how to disagree. Whose it is to put right is told as a fact
 * about parts and never about people. Plain text in the language of `say`, in which the edition and the causes are given too;
 * paragraphs are parted by an empty line.
 *
 * Example: "(3) Run of the drain: It runs level, rises or sags somewhere".
 */
export function composeLetter(facts: LetterFacts, edition: Edition, say: Say): string {
  const { primary, contributing, attribution, origin, remedy, seller } = facts;
  const inOrderOfThePath = [...facts.findings].sort((a, b) => OIL_PATH_PARTS[a.part].balloon - OIL_PATH_PARTS[b.part].balloon);
  const told = (["customer", "technician", "bench"] as const).flatMap((observer) => {
    const lines = inOrderOfThePath.filter((finding) => finding.observer === observer).map(({ part, name, answer }) => `${numbered(part)} ${name}: ${answer}`);
    return lines.length > 0 ? [[say(`letter.saw.${observer}`), ...lines].join("\n")] : [];
  });
  const also = contributing.map(({ plainName, part }) => say("letter.adds", { cause: `${capital(plainName)} ${numbered(part)}` }));
  const { reference, about } = facts;
  return [
    say("letter.greeting", { name: facts.name }),
    `${about ? say("letter.decidedAbout", { reference, about }) : say("letter.decided", { reference })} ${say("letter.numbers")}`,
    ...(facts.stop ? [inOneText(stopEngineInWords(facts.stop, say))] : []),
    `${say("letter.headings.means")}\n${capital(primary.plainName)} ${numbered(primary.part)}. ${say(origin === "not_known" ? "letter.originNotKnown" : `letter.meaning.${attribution}`)}`,
    ...(facts.objection ? [`${say("letter.objection")}\n${facts.objection}`] : []),
    ...(facts.explanation ? [facts.objection === null ? facts.explanation : `${say("letter.answer")}\n${facts.explanation}`] : []),
    ...(also.length > 0 ? [also.join(" ")] : []),
    `${say("letter.headings.weDo")}\n${[say(`letter.remedy.${remedy}`), ...promiseSentences(facts, say)].join(" ")}`,
    [say("letter.headings.next"), ...[primary, ...contributing].map(({ advice, part }) => `${numbered(part)} ${advice}`)].join("\n"),
    [say("letter.headings.before"), ...cautionsAround(primary.part, edition).map((code) => inOneText(cautionInWords(code, say))), say("cautions.makersData")].join("\n"),
    ...told,
    `${say("letter.headings.otherwise")}\n${say("letter.otherwise")}`,
    [say("letter.regards"), seller.name, ...(seller.phone ? [seller.phone] : [])].join("\n"),
  ].join("\n\n");
}

/** What is paid and by whom, in sums; nothing where no sum was named. */
function promiseSentences({ remedy, promise }: LetterFacts, say: Say): string[] {
  const { promisedMinor, promisedCurrency, sellerPercent, coreDepositMinor, paysCarriage } = promise;
  const money = (minor: number) => formatMoney(minor, promisedCurrency ?? "", say.language);
  const ours = promisedMinor === null ? null : shareOut(promisedMinor, { sellerPercent, supplierPercent: 0 });
  const sum = () => {
    if (!ours || promisedMinor === null) return [];
    if (sellerPercent < 100) return [say("letter.share", { all: money(promisedMinor), percent: sellerPercent, ours: money(ours.sellerMinor), yours: money(ours.customerMinor) })];
    return remedy === "refund" || remedy === "goodwill" ? [say("letter.sum", { all: money(promisedMinor) })] : [];
  };
  return [...sum(), ...(coreDepositMinor === null ? [] : [say("letter.deposit", { deposit: money(coreDepositMinor) })]), ...(paysCarriage ? [say("letter.carriage")] : [])];
}

/** The cautions of every look at this part that needs no workshop, in their fixed order. */
function cautionsAround(part: OilPathPart, edition: Edition) {
  const near = new Set(edition.findings.filter((finding) => finding.part === part && finding.observers.includes("customer")).flatMap(({ cautions }) => cautions));
  return CAUTION_CODES.filter((code) => near.has(code));
}

const numbered = (part: OilPathPart) => `(${OIL_PATH_PARTS[part].balloon})`;
const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
