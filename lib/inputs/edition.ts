import { z } from "zod";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { cycleOfQuestions } from "@/lib/domain/diagnosis/asked-when";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { elementName } from "@/lib/domain/diagnosis/edition-leaves";
import { CAUTION_CODES, CHECK_COSTS, type Edition, MEASURED_UNITS, OBSERVERS, QUANTITIES, REFERENCE_NAMES, STOP_REASONS, TOLD } from "@/lib/domain/diagnosis/knowledge";
import { isComputed, needsLimit } from "@/lib/domain/diagnosis/physical-facts";
import { OIL_PATH_PARTS, type OilPathPart } from "@/lib/domain/diagnosis/oil-path";

const words = z.string().trim().min(1).max(500);
const causeCode = z.string().regex(/^C\d{2,3}$/, "A cause has a code such as C01.");
const findingCode = z.string().regex(/^F\d{2,3}$/, "A finding has a code such as F01.");

const provenance = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("published"), source: words }),
  z.object({ kind: z.literal("common practice"), note: words.exactOptional() }),
  z.object({ kind: z.literal("judgement"), note: words.exactOptional() }),
  z.object({
    kind: z.literal("learned"),
    note: words,
    counts: z
      .object({ of: z.int().positive(), hits: z.int().nonnegative() })
      .refine(({ of, hits }) => hits <= of, "More hits than cases."),
  }),
]);

const number = z.number("Write a number.");
const probability = z.object({ value: number.min(0, "A probability is never below 0.").max(1, "A probability is never above 1."), provenance });
/** Neither never nor always: a circumstance could not shift it. */
const baseFigure = z.object({ value: number.gt(0, "A base figure lies above 0.").lt(1, "A base figure lies below 1."), provenance });
const oddsRatio = z.object({ value: number.gt(0, "An odds ratio lies above 0."), provenance });
const perObserver = z.object({ customer: probability, technician: probability, bench: probability });
const part = z.enum(Object.keys(OIL_PATH_PARTS) as [OilPathPart, ...OilPathPart[]]);

const cause = z.object({
  code: causeCode,
  name: words,
  plainName: words,
  attribution: z.enum(ATTRIBUTIONS),
  originIsOpen: z.boolean(),
  part,
  advice: words,
  base: baseFigure,
});

const findingBase = {
  code: findingCode,
  name: words,
  part,
  observers: z.array(z.enum(OBSERVERS)).min(1),
  minutes: z.number().positive().max(1000),
  cost: z.enum(CHECK_COSTS),
  tools: z.array(words),
  cautions: z.array(z.enum(CAUTION_CODES)),
  askedWhen: z.object({ finding: findingCode, answers: z.array(z.string()).min(1) }).exactOptional(),
  tells: z.enum(TOLD).exactOptional(),
  runsEngine: z.boolean().exactOptional(),
  question: words,
  why: words,
  how: words,
  options: z.array(z.object({ value: z.string().regex(/^[a-z0-9-]+$/), label: words, share: probability.exactOptional() })),
};

/** Physics divides by the spread of a reading: none is exact. */
const accuracy = z
  .object({ absolute: z.number().nonnegative(), share: z.number().nonnegative().max(1) })
  .refine(({ absolute, share }) => absolute > 0 || share > 0, "No reading is exact: it needs an absolute part or a share.");

const reference = z.object({ name: words, value: z.number().positive(), spread: z.number().positive().max(2), unit: z.string().max(20), provenance });

const links = z.array(z.object({ cause: causeCode, strength: perObserver }));

const finding = z.discriminatedUnion("kind", [
  z.object({ ...findingBase, kind: z.literal(["site", "sign"]), background: perObserver, links }),
  z.object({
    ...findingBase,
    kind: z.literal("circumstance"),
    shifts: z.array(z.object({ option: z.string(), cause: causeCode, oddsRatio })),
    gates: z.array(z.object({ cause: causeCode, onlyUnder: z.array(z.string()).min(1) })),
  }),
  z.object({
    ...findingBase,
    kind: z.literal("measurement"),
    observers: z.array(z.enum(OBSERVERS)),
    quantity: z.enum(QUANTITIES),
    unit: z.enum(MEASURED_UNITS),
    plausible: z
      .object({ min: z.number(), max: z.number() })
      .refine(({ min, max }) => min < max, "The smallest plausible value must be below the largest."),
    accuracy: z.object({ customer: accuracy, technician: accuracy, bench: accuracy }),
    limit: z
      .object({
        value: z.number(),
        side: z.enum(["below-is-bad", "above-is-bad"]),
        spread: z.number().positive(),
        provenance,
      })
      .nullable(),
    background: perObserver,
    links,
    replaces: z.array(findingCode),
  }),
]);

const experienceRow = z.object({ kit: z.string().min(1).max(100), vehicle: z.string().min(1).max(100).nullable(), cause: causeCode, oddsRatio });

const stopAnswer = z.object({ finding: findingCode, answer: z.string() });
const stopRule = z.object({ reason: z.enum(STOP_REASONS), when: z.tuple([stopAnswer], stopAnswer), unless: stopAnswer.nullable() });

const document = z.object({
  number: z.int().positive(),
  name: words,
  causes: z.array(cause).min(1),
  findings: z.array(finding).min(1),
  references: z.record(z.enum(REFERENCE_NAMES), reference),
  experience: z.array(experienceRow).default([]),
  translations: z.partialRecord(z.enum(LANGUAGES), z.record(z.string().max(120), z.object({ of: words, text: words }))).default({}),
  samePhysicalFact: z.array(z.array(findingCode).min(2)),
  stopRules: z.array(stopRule),
});

type Path = (string | number)[];
type Complain = (path: Path, message: string) => void;

function checkUniqueCodes(list: readonly { code: string }[], at: string, complain: Complain): void {
  const seen = new Set<string>();
  list.forEach(({ code }, place) => {
    if (seen.has(code)) complain([at, place, "code"], `${code} is there twice.`);
    seen.add(code);
  });
}

/** Everything named must exist, every answer named be an option, and every cause be shown by some finding. */
function checkReferences(edition: z.infer<typeof document>, complain: Complain): void {
  checkUniqueCodes(edition.causes, "causes", complain);
  checkUniqueCodes(edition.findings, "findings", complain);
  const causes = new Set(edition.causes.map(({ code }) => code));
  const findings = new Map(edition.findings.map((one) => [one.code, one]));
  const needCause = (code: string, path: Path) => {
    if (!causes.has(code)) complain(path, `${code} is not a cause of this edition.`);
  };
  const needFinding = (code: string, path: Path) => {
    if (!findings.has(code)) complain(path, `${code} is not a finding of this edition.`);
  };
  const needAnswer = ({ finding: code, answer }: { finding: string; answer: string }, path: Path) => {
    needFinding(code, [...path, "finding"]);
    const options = findings.get(code)?.options ?? [];
    if (findings.has(code) && !options.some(({ value }) => value === answer)) {
      complain([...path, "answer"], `${answer} is not an answer to ${code}.`);
    }
  };

  edition.findings.forEach(({ askedWhen }, place) => {
    askedWhen?.answers.forEach((answer, i) => {
      needAnswer({ finding: askedWhen.finding, answer }, ["findings", place, "askedWhen", "answers", i]);
    });
  });
  const cycle = cycleOfQuestions(edition);
  if (cycle) {
    const place = edition.findings.findIndex(({ code }) => code === cycle[0]);
    complain(["findings", place, "askedWhen"], `${cycle.join(" waits for ")}: none of them would ever be asked.`);
  }

  const needOnce = (names: readonly string[], path: Path) => {
    names.forEach((name, i) => {
      if (names.indexOf(name) < i) complain([...path, i], `${name} is there twice.`);
    });
  };

  const shown = new Set<string>();
  edition.findings.forEach((one, place) => {
    const at: Path = ["findings", place];
    const values = one.options.map(({ value }) => value);
    needOnce(values, [...at, "options"]);
    if (one.kind === "circumstance") needOnce(one.shifts.map(({ option, cause }) => `${option}:${cause}`), [...at, "shifts"]);
    else needOnce(one.links.map(({ cause }) => cause), [...at, "links"]);
    if (one.kind === "circumstance") {
      const needOption = (value: string, path: Path) => {
        if (!values.includes(value)) complain(path, `${value} is not an option of ${one.code}.`);
      };
      one.shifts.forEach((shift, i) => {
        needCause(shift.cause, [...at, "shifts", i, "cause"]);
        needOption(shift.option, [...at, "shifts", i, "option"]);
      });
      one.gates.forEach((gate, i) => {
        needCause(gate.cause, [...at, "gates", i, "cause"]);
        gate.onlyUnder.forEach((value, j) => {
          needOption(value, [...at, "gates", i, "onlyUnder", j]);
        });
      });
      return;
    }
    if (one.kind !== "measurement" && !(values.includes("present") && values.includes("absent"))) {
      complain([...at, "options"], `${one.code} needs the answers present and absent.`);
    }
    one.links.forEach((link, i) => {
      needCause(link.cause, [...at, "links", i, "cause"]);
      if (one.observers.some((observer) => link.strength[observer].value > 0)) shown.add(link.cause);
    });
    if (one.kind === "measurement") {
      if (one.observers.length === 0 && !isComputed(one.quantity)) complain([...at, "observers"], `Nobody can observe ${one.code}.`);
      if (one.limit === null && one.links.length > 0 && needsLimit(one.quantity)) complain([...at, "limit"], `${one.code} needs a limit: physics gives none for it.`);
      one.replaces.forEach((code, i) => {
        needFinding(code, [...at, "replaces", i]);
      });
    }
  });
  edition.causes.forEach(({ code }, place) => {
    if (!shown.has(code)) complain(["causes", place], `${code} is shown by no finding: nothing could ever speak for it.`);
  });
  const known = new Set<string>();
  edition.experience.forEach(({ kit, vehicle, cause }, i) => {
    needCause(cause, ["experience", i, "cause"]);
    const row = JSON.stringify([kit, vehicle, cause]);
    if (known.has(row)) complain(["experience", i], `${cause} is there twice for the same kit and vehicle.`);
    known.add(row);
  });
  edition.samePhysicalFact.forEach((group, i) => {
    group.forEach((code, j) => {
      needFinding(code, ["samePhysicalFact", i, j]);
    });
  });
  edition.stopRules.forEach(({ when, unless }, i) => {
    when.forEach((answer, j) => {
      needAnswer(answer, ["stopRules", i, "when", j]);
    });
    if (unless) needAnswer(unless, ["stopRules", i, "unless"]);
  });
}

/**
 * An edition of the knowledge as it comes in from outside or from the database: figures within their bounds, codes
 * unique and known, and no cause that no finding can show. Each issue names the place in the document.
 */
export const editionSchema: z.ZodType<Edition> = document.superRefine((edition, context) => {
  checkReferences(edition, (path, message) => {
    context.addIssue({ code: "custom", path, message });
  });
});

/** One thing an edition is refused for: the field by name, `causes.C01.base.value`, and the reason. */
export interface EditionIssue {
  path: string;
  message: string;
}

/** More than these help nobody: the same mistake is then everywhere. */
const MOST_ISSUES = 200;
const LONGEST_NAME = 60;

/** A place in the document by the names of its elements; one that has none keeps its number. */
function fieldName(document: unknown, path: readonly PropertyKey[]): string {
  let inside: unknown = document;
  const names = path.map((key) => {
    const element = typeof inside === "object" && inside !== null ? (inside as Record<PropertyKey, unknown>)[key] : undefined;
    const name = typeof key === "number" ? elementName(element, key) : String(key);
    inside = element;
    return name.slice(0, LONGEST_NAME);
  });
  return names.join(".");
}

/**
 * Reads a document that somebody proposes as the next edition. Its number is not theirs to give.
 *
 * Example: a base of -1 for C01 is refused at `causes.C01.base.value`.
 */
export function readEdition(document: unknown): { ok: true; edition: Edition } | { ok: false; issues: EditionIssue[] } {
  const isObject = typeof document === "object" && document !== null && !Array.isArray(document);
  const read = editionSchema.safeParse(isObject ? { ...document, number: 1 } : document);
  if (read.success) return { ok: true, edition: read.data };
  return { ok: false, issues: read.error.issues.slice(0, MOST_ISSUES).map(({ path, message }) => ({ path: fieldName(document, path), message })) };
}
