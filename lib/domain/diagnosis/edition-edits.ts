import { ATTRIBUTIONS } from "./attributions";
import { elementName, leavesOf } from "./edition-leaves";
import { CHECK_COSTS, type Edition, OBSERVERS, type Provenance } from "./knowledge";
import { OIL_PATH_PARTS } from "./oil-path";

/**
 * What somebody has typed to change an edition, by name of the field. Names are those of `leavesOf`, and beside them
 * `.is` (added, retired, removed) of a cause, a finding or a link, and `.provenance.kind` and `.provenance.note` of a
 * figure; the figures of one link, or of one background, share theirs.
 */
export type Edits = Readonly<Record<string, string>>;

const WORDS = /^causes\.C\d{2,3}\.(name|plainName|advice|attribution|originIsOpen|part)$|^findings\.F\d{2,3}\.(name|question|why|how|minutes|cost|part)$/;
const OBSERVER = `(${OBSERVERS.join("|")})`;
const FIGURE = new RegExp(
  [
    String.raw`^causes\.C\d{2,3}\.base`,
    String.raw`^findings\.F\d{2,3}\.(background|links\.C\d{2,3}\.strength)\.${OBSERVER}`,
    String.raw`^findings\.F\d{2,3}\.shifts\.[a-z0-9-]+:C\d{2,3}\.oddsRatio`,
    String.raw`^findings\.F\d{2,3}\.limit`,
    String.raw`^references\.[a-zA-Z]+`,
  ]
    .map((start) => String.raw`${start}\.value$`)
    .join("|"),
);
const GROUND = /^(causes\.C\d{2,3}\.base|findings\.F\d{2,3}\.(background|links\.C\d{2,3}\.strength|shifts\.[a-z0-9-]+:C\d{2,3}\.oddsRatio|limit)|references\.[a-zA-Z]+)\.provenance\.(kind|note)$/;
const FATE = /^(causes\.C\d{2,3}|findings\.F\d{2,3}|findings\.F\d{2,3}\.links\.C\d{2,3})\.is$/;

/** Whether a field of this name can be typed. */
export function isEditable(field: string): boolean {
  return field === "name" || field === "why" || [WORDS, FIGURE, GROUND, FATE].some((pattern) => pattern.test(field)) || /^(findings\.F\d{2,3}\.limit|references\.[a-zA-Z]+)\.spread$/.test(field);
}

/**
 * In how many a figure is counted where it is typed: base figures per 1,000 fitted units, what is seen per 100 looks,
 * all else as it is.
 */
export function scaleOf(field: string): number {
  if (/\.base\.value$/.test(field)) return 1000;
  return /\.(background|strength)\.\w+\.value$/.test(field) ? 100 : 1;
}

/** Four digits are more than any of these figures is known to. */
const DIGITS = 4;

/** A stated value as it stands in the field to be changed. */
export function asTyped(field: string, value: string | number | boolean | null): string {
  if (typeof value === "number") return String(Number((value * scaleOf(field)).toPrecision(DIGITS)));
  return typeof value === "boolean" ? (value ? "yes" : "no") : (value ?? "");
}

/** Only what differs from the edition: typing a figure as it stands changes nothing. */
export function withoutUnchanged(edits: Edits, edition: Edition): Edits {
  const leaves = leavesOf(edition);
  return Object.fromEntries(
    Object.entries(edits).filter(([field, typed]) => {
      const leaf = leaves.get(field);
      return leaf ? asTyped(field, leaf.value) !== typed.trim() : typed.trim() !== "";
    }),
  );
}

/** A document under change: it may not be sound. */
type Loose = { [key: string]: unknown };

const codesWith = (edits: Edits, list: "causes" | "findings", fate: string) =>
  Object.entries(edits).flatMap(([field, typed]) => (typed === fate && new RegExp(String.raw`^${list}\.[CF]\d{2,3}\.is$`).test(field) ? [field.split(".")[1] ?? ""] : []));

const NOT_SAID: Provenance = { kind: "judgement" };
const nothingSeen = () => Object.fromEntries(OBSERVERS.map((observer) => [observer, { value: 0, provenance: NOT_SAID }]));

const newCause = (code: string): Loose => ({
  code,
  name: "",
  plainName: "",
  attribution: ATTRIBUTIONS[0],
  originIsOpen: false,
  part: Object.keys(OIL_PATH_PARTS)[0],
  advice: "",
  base: { value: 0, provenance: NOT_SAID },
});

const newFinding = (code: string): Loose => ({
  code,
  kind: "sign",
  name: "",
  part: Object.keys(OIL_PATH_PARTS)[0],
  observers: ["customer", "technician"],
  minutes: 5,
  cost: CHECK_COSTS[0],
  tools: [],
  cautions: [],
  question: "",
  why: "",
  how: "",
  options: [
    { value: "present", label: "Yes" },
    { value: "absent", label: "No" },
  ],
  background: nothingSeen(),
  links: [],
});

/** The part of the document a name leads to, or undefined. */
function partAt(document: unknown, names: readonly string[]): unknown {
  return names.reduce<unknown>((inside, name) => {
    if (Array.isArray(inside)) return inside.find((element, place) => elementName(element, place) === name);
    return typeof inside === "object" && inside !== null && Object.hasOwn(inside, name) ? (inside as Loose)[name] : undefined;
  }, document);
}

/** What was typed as the kind of value that stands there; what is no number stays as it is, to be refused by name. */
function read(field: string, typed: string, before: unknown): unknown {
  if (typeof before === "boolean") return typed === "yes";
  if (typeof before !== "number") return typed;
  const number = Number(typed.trim().replace(",", ".") || Number.NaN);
  return Number.isNaN(number) ? typed : number / scaleOf(field);
}

function groundOf(kind: string, note: string): unknown {
  if (kind === "published") return { kind, source: note };
  return note ? { kind, note } : { kind };
}

/** Gives a figure the ground that was typed; of several that share it, those whose value was typed, else all. */
function setGround(document: Loose, place: string, edits: Edits): void {
  const kind = edits[`${place}.provenance.kind`];
  const target = partAt(document, place.split("."));
  if (!kind || typeof target !== "object" || target === null) return;
  const ground = groundOf(kind, (edits[`${place}.provenance.note`] ?? "").trim());
  const figures = target as Loose;
  if ("provenance" in figures) {
    figures.provenance = ground;
    return;
  }
  const typed = OBSERVERS.filter((observer) => `${place}.${observer}.value` in edits);
  for (const observer of typed.length > 0 ? typed : OBSERVERS) {
    figures[observer] = { ...(figures[observer] as Loose), provenance: ground };
  }
}

function addWhatIsNew(document: Edition & Loose, edits: Edits): void {
  const isThere = (list: readonly { code: string }[], code: string) => list.some((one) => one.code === code);
  const causes = document.causes as unknown as Loose[];
  const findings = document.findings as unknown as Loose[];
  for (const code of codesWith(edits, "causes", "added")) if (!isThere(document.causes, code)) causes.push(newCause(code));
  for (const code of codesWith(edits, "findings", "added")) if (!isThere(document.findings, code)) findings.push(newFinding(code));
  for (const [field, typed] of Object.entries(edits)) {
    const [, finding, cause] = /^findings\.(F\d{2,3})\.links\.(C\d{2,3})\./.exec(field) ?? [];
    const links = partAt(document, ["findings", finding ?? "", "links"]);
    if (!cause || !FIGURE.test(field) || typed.trim() === "" || !Array.isArray(links)) continue;
    if (!links.some((link: { cause: string }) => link.cause === cause)) links.push({ cause, strength: nothingSeen() });
  }
}

/** Takes out what is retired, and whatever names it, but for the rules that stop an engine: those are not given up by the way. */
function takeOutWhatIsRetired(document: Edition & Loose, edits: Edits): void {
  const causes = new Set(codesWith(edits, "causes", "retired"));
  const findings = new Set(codesWith(edits, "findings", "retired"));
  const stays = ({ cause }: { cause: string }) => !causes.has(cause);
  document.causes = document.causes.filter(({ code }) => !causes.has(code));
  document.experience = document.experience.filter(stays);
  document.findings = document.findings
    .filter(({ code }) => !findings.has(code))
    .map((finding) => {
      if (finding.kind === "circumstance") return { ...finding, shifts: finding.shifts.filter(stays), gates: finding.gates.filter(stays) };
      const links = finding.links.filter((link) => stays(link) && edits[`findings.${finding.code}.links.${link.cause}.is`] !== "removed");
      return finding.kind === "measurement" ? { ...finding, links, replaces: finding.replaces.filter((code) => !findings.has(code)) } : { ...finding, links };
    });
  document.samePhysicalFact = document.samePhysicalFact.map((group) => group.filter((code) => !findings.has(code))).filter((group) => group.length > 1);
  const isGone = (name: string) => causes.has(name.split(".")[1] ?? "") || findings.has(name.split(".")[1] ?? "");
  document.translations = Object.fromEntries(
    Object.entries(document.translations).map(([language, texts]) => [language, Object.fromEntries(Object.entries(texts).filter(([name]) => !isGone(name)))]),
  );
}

/**
 * An edition with what was typed worked into it: the document to be proposed. It may not be sound; its schema tells
 * what cannot stand, by the same names.
 *
 * Example: `causes.C01.base.value` typed as "3" makes C01's base 0.003.
 */
export function applyEdits(edition: Edition, edits: Edits): Edition {
  // Figures that the shipped edition writes once for two observers must come apart, which structuredClone would not let them.
  const document = JSON.parse(JSON.stringify(edition)) as Edition & Loose;
  addWhatIsNew(document, edits);
  const grounds = new Set<string>();
  for (const [field, typed] of Object.entries(edits)) {
    if (!isEditable(field) || field === "why" || FATE.test(field)) continue;
    if (GROUND.test(field)) {
      grounds.add(field.replace(/\.provenance\.(kind|note)$/, ""));
      continue;
    }
    const names = field.split(".");
    const last = names.pop() ?? "";
    const holder = partAt(document, names);
    if (typeof holder === "object" && holder !== null && Object.hasOwn(holder, last)) (holder as Loose)[last] = read(field, typed, (holder as Loose)[last]);
  }
  for (const place of grounds) setGround(document, place, edits);
  takeOutWhatIsRetired(document, edits);
  return document;
}

/**
 * The field that a complaint about a place in the document is shown beside.
 *
 * Example: `findings.F12.links.C01.strength.bench.provenance` is typed in `findings.F12.links.C01.strength.provenance.kind`.
 */
export function fieldOfIssue(path: string): string {
  const ground = /^(.*?)(?:\.(?:customer|technician|bench))?\.provenance(\..*)?$/.exec(path);
  if (!ground) return path;
  return `${ground[1]}.provenance.${/\.(source|note)$/.test(path) ? "note" : "kind"}`;
}
