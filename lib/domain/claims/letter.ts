import type { Attribution, Origin } from "../diagnosis/attributions";
import { CAUTIONS, MAKERS_DATA_COME_FIRST, STOP_ENGINE_TEXTS } from "../diagnosis/cautions";
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

const LOOKED: Readonly<Record<Observer, string>> = {
  customer: "What you told us",
  technician: "What a technician saw",
  bench: "What we saw on our bench",
};

/** Whose it is to put right, told as a fact about parts and never about people. */
const MEANING: Readonly<Record<Attribution, string>> = {
  fit: "It lies in how the parts sit on the engine. The same would happen with another unit.",
  kit: "It lies in the parts of the kit that we sent, and that is ours to put right.",
  engine: "It lies in the condition of the engine. Another unit would leak in the same way until that is put right.",
  unit: "It lies in the unit that we sent, and that is ours to put right.",
  normal: "This is not a defect, and it harms nothing.",
  transit: "The unit was damaged on its way to you. You need not settle that with anybody: we do.",
  elsewhere: "The oil does not come from the unit.",
};
const ORIGIN_NOT_KNOWN = "Whether a part of the kit or the way it sits brought this about cannot be told from what we know.";

const REMEDY_SENTENCES: Readonly<Record<Remedy, string>> = {
  advice: "The steps below put it right; nothing needs to be sent back.",
  part_sent: "We send you the part you need, at no cost to you.",
  repair: "We repair the unit, at no cost to you.",
  replacement: "We send you another unit, at no cost to you.",
  refund: "We pay back what you paid for it.",
  goodwill: "We meet part of the cost as a courtesy.",
  declined: "We can send no part and pay nothing for this.",
};

/**
 * The letter to the customer: a danger first; what it means, what the seller does, what to do next with its cautions,
 * what it rests on with the balloon numbers of the drawing, and how to disagree. Plain text; paragraphs are parted by an empty line.
 *
 * Example: "(3) Run of the drain: It runs level, rises or sags somewhere".
 */
export function composeLetter(facts: LetterFacts, edition: Edition, say: Say): string {
  const { primary, contributing, attribution, origin, remedy, seller } = facts;
  const inOrderOfThePath = [...facts.findings].sort((a, b) => OIL_PATH_PARTS[a.part].balloon - OIL_PATH_PARTS[b.part].balloon);
  const told = (["customer", "technician", "bench"] as const).flatMap((observer) => {
    const lines = inOrderOfThePath.filter((finding) => finding.observer === observer).map(({ part, name, answer }) => `${numbered(part)} ${name}: ${answer}`);
    return lines.length > 0 ? [`${LOOKED[observer]}:\n${lines.join("\n")}`] : [];
  });
  const also = contributing.length > 0 ? [`${capital(list(contributing.map(({ plainName, part }) => `${plainName} ${numbered(part)}`)))}: this adds to it.`] : [];
  const stop = facts.stop ? [`${STOP_ENGINE_TEXTS[facts.stop].title}. ${STOP_ENGINE_TEXTS[facts.stop].sentence}`] : [];
  return [
    `Dear ${facts.name},`,
    `we have decided your complaint ${facts.reference}${facts.about ? ` about ${facts.about}` : ""}. The numbers in brackets are those of the drawing on your private page.`,
    ...stop,
    `What it means:\n${capital(primary.plainName)} ${numbered(primary.part)}. ${MEANING[attribution]}${origin === "not_known" ? ` ${ORIGIN_NOT_KNOWN}` : ""}`,
    ...(facts.objection ? [`${say("letter.objection")}\n${facts.objection}`] : []),
    ...(facts.explanation ? [facts.objection === null ? facts.explanation : `${say("letter.answer")}\n${facts.explanation}`] : []),
    ...also,
    `What we do:\n${[REMEDY_SENTENCES[remedy], ...promiseSentences(facts, say)].join(" ")}`,
    ["What to do next:", ...[primary, ...contributing].map(({ advice, part }) => `${numbered(part)} ${advice}`)].join("\n"),
    ["Before you work on it:", ...cautionsAround(primary.part, edition).map(({ title, sentence }) => `${title}. ${sentence}`), MAKERS_DATA_COME_FIRST].join("\n"),
    "What we looked at:",
    ...told,
    "If you see it otherwise:\nWrite to us on your private page and say why; a photo or a measurement helps most. We then look at it again.",
    ["With kind regards", seller.name, ...(seller.phone ? [seller.phone] : [])].join("\n"),
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
  return CAUTION_CODES.filter((code) => near.has(code)).map((code) => CAUTIONS[code]);
}

const numbered = (part: OilPathPart) => `(${OIL_PATH_PARTS[part].balloon})`;
const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
const list = (words: readonly string[]) => (words.length > 1 ? `${words.slice(0, -1).join(", ")} and ${words.at(-1)}` : words.join(""));
