import { type EditionLeaf, leavesOf } from "./edition-leaves";
import type { CauseCode, Edition, FindingCode, Provenance } from "./knowledge";

/** Something both editions state, and not alike. */
export interface EditionChange {
  /** `causes.C01.base.value` */
  field: string;
  before: EditionLeaf;
  after: EditionLeaf;
  /** New over old, where both are numbers other than zero. */
  factor: number | null;
}

/** What changed of one cause, one finding, or (`subject` null) of the edition as a whole. */
export interface SubjectChange {
  subject: { kind: "cause"; code: CauseCode } | { kind: "finding"; code: FindingCode } | null;
  name: string;
  fate: "added" | "retired" | "changed";
  changes: readonly EditionChange[];
  /** Stated only in the new edition, or only in the old one; empty for what was added or retired whole. */
  came: readonly string[];
  went: readonly string[];
  /** Causes whose probability this can move directly. */
  affects: readonly CauseCode[];
}

const sameProvenance = (a: Provenance | null, b: Provenance | null) => JSON.stringify(inOrder(a)) === JSON.stringify(inOrder(b));

/** Entries sorted by key: a stored document does not keep their order. */
function inOrder(provenance: Provenance | null): unknown {
  if (!provenance) return null;
  return Object.entries(provenance)
    .map(([key, value]) => [key, typeof value === "object" ? Object.entries(value).sort() : value] as const)
    .sort(([a], [b]) => a.localeCompare(b));
}

const sameLeaf = (a: EditionLeaf, b: EditionLeaf) => a.value === b.value && sameProvenance(a.provenance, b.provenance);

function factorOf(before: EditionLeaf, after: EditionLeaf): number | null {
  if (typeof before.value !== "number" || typeof after.value !== "number") return null;
  return before.value === 0 || after.value === 0 ? null : after.value / before.value;
}

/** `causes.C01` of `causes.C01.base.value`; what stands for itself is of the whole. */
function subjectOf(field: string): string {
  const [list, code] = field.split(".");
  return list === "causes" || list === "findings" ? `${list}.${code}` : "";
}

/** The causes a change speaks of: the one it names, or all those of its finding. */
function affectedCauses(fields: readonly string[], editions: readonly Edition[]): CauseCode[] {
  const affected = new Set<CauseCode>();
  for (const field of fields) {
    const named = /\bC\d{2,3}\b/.exec(field)?.[0];
    if (named) {
      affected.add(named);
      continue;
    }
    const [list, code, part] = field.split(".");
    if (list !== "findings" || !["background", "limit", "accuracy", "quantity", "gates", "replaces", "observers"].includes(part ?? "")) continue;
    for (const edition of editions) {
      const finding = edition.findings.find((one) => one.code === code);
      if (!finding) continue;
      for (const { cause } of finding.kind === "circumstance" ? [...finding.shifts, ...finding.gates] : finding.links) affected.add(cause);
    }
  }
  return [...affected].sort();
}

/**
 * Diff of two editions: what each cause and each finding states otherwise, old beside new with the factor between
 * them and the causes that it can move. Names of things, not places in the document, are compared: a cause that
 * comes in between changes nothing else.
 *
 * Example: the base of C01 from 0.002 to 0.003 is one change of `causes.C01.base.value` by a factor of 1.5, and it
 * affects C01.
 */
export function diffEditions(before: Edition, after: Edition): SubjectChange[] {
  const [old, fresh] = [leavesOf(before), leavesOf(after)];
  const bySubject = new Map<string, { changes: EditionChange[]; came: string[]; went: string[] }>();
  const of = (field: string) => {
    const subject = subjectOf(field);
    const known = bySubject.get(subject) ?? { changes: [], came: [], went: [] };
    bySubject.set(subject, known);
    return known;
  };
  for (const [field, now] of fresh) {
    const then = old.get(field);
    if (!then) of(field).came.push(field);
    else if (!sameLeaf(then, now)) of(field).changes.push({ field, before: then, after: now, factor: factorOf(then, now) });
  }
  for (const field of old.keys()) if (!fresh.has(field)) of(field).went.push(field);

  return [...bySubject]
    .map(([subject, found]): SubjectChange => {
      const [list, code = ""] = subject.split(".");
      const listed = (edition: Edition) => (list === "causes" ? edition.causes : edition.findings).find((one) => one.code === code);
      const [then, now] = [listed(before), listed(after)];
      const affects = affectedCauses([...found.changes.map(({ field }) => field), ...found.came, ...found.went], [before, after]);
      if (!subject) return { subject: null, name: "The edition as a whole", fate: "changed", ...found, affects };
      const fate = !then ? "added" : !now ? "retired" : "changed";
      return {
        subject: { kind: list === "causes" ? "cause" : "finding", code },
        name: (now ?? then)?.name ?? code,
        fate,
        ...(fate === "changed" ? found : { changes: [], came: [], went: [] }),
        affects,
      };
    })
    .sort((a, b) => placeOf(a).localeCompare(placeOf(b)));
}

const placeOf = ({ subject }: SubjectChange) => (subject ? subject.code : "Z");

/**
 * Figures that were given another value without a word about where it comes from: names of the fields.
 *
 * Example: C01's base from 0.002 to 0.003, both by plain judgement, is unexplained; with a note of its own it is not.
 */
export function unexplainedChanges(before: Edition, after: Edition): string[] {
  const old = leavesOf(before);
  return [...leavesOf(after)].flatMap(([field, now]) => {
    const then = old.get(field);
    const isUnexplained = then && now.provenance && then.value !== now.value && sameProvenance(then.provenance, now.provenance);
    return isUnexplained ? [field] : [];
  });
}
