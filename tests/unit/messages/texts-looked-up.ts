import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import ts from "typescript";

const root = path.resolve(import.meta.dirname, "../../..");
const LOOKUPS = ["words", "say"];
const SOURCES = ["app", "lib", "seed"];

/** One lookup of a text in the sources: its name, with `*` where a part of it is worked out, and the facts it is given. */
export interface Lookup {
  place: string;
  name: string;
  /** Null where they are not written down as an object. */
  facts: readonly string[] | null;
}

function nameOf(node: ts.Expression | undefined): string | null {
  if (!node) return null;
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (ts.isTemplateExpression(node)) return node.head.text + node.templateSpans.map(({ literal }) => `*${literal.text}`).join("");
  return null;
}

function factsOf(node: ts.Expression | undefined): readonly string[] | null {
  if (!node) return [];
  if (!ts.isObjectLiteralExpression(node) || node.properties.some(ts.isSpreadAssignment)) return null;
  return node.properties.flatMap((property) => (property.name && (ts.isIdentifier(property.name) || ts.isStringLiteral(property.name)) ? [property.name.text] : []));
}

/** Whether a call is `words(...)`, `words.rich(...)`, `say(...)` or of one that is a part of something: `facts.say(...)`. */
function isLookup({ expression }: ts.CallExpression): boolean {
  if (ts.isIdentifier(expression)) return LOOKUPS.includes(expression.text);
  if (!ts.isPropertyAccessExpression(expression)) return false;
  if (LOOKUPS.includes(expression.name.text)) return true;
  return ["rich", "markup"].includes(expression.name.text) && ts.isIdentifier(expression.expression) && LOOKUPS.includes(expression.expression.text);
}

function lookupsIn(source: ts.SourceFile): Lookup[] {
  const found: Lookup[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && isLookup(node)) {
      const name = nameOf(node.arguments[0]);
      const { line } = source.getLineAndCharacterOfPosition(node.getStart());
      if (name?.includes(".")) found.push({ place: `${source.fileName}:${line + 1}`, name, facts: factsOf(node.arguments[1]) });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** Every string of the sources that may be the name of a text, looked up or handed on. */
function stringsIn(source: ts.SourceFile): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const name = ts.isExpression(node) ? nameOf(node) : null;
    if (name?.includes(".")) found.push(name);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const sources = SOURCES.flatMap((folder) =>
  readdirSync(path.join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name) && !name.includes("generated"))
    .map((name) => {
      const file = path.join(folder, name);
      return ts.createSourceFile(file, readFileSync(path.join(root, file), "utf8"), ts.ScriptTarget.Latest, true);
    }),
);

export const LOOKED_UP: readonly Lookup[] = sources.flatMap(lookupsIn);
export const NAMED: ReadonlySet<string> = new Set(sources.flatMap(stringsIn));

/** Whether a name of the sources, with its `*`, means this text. */
export function means(name: string, text: string): boolean {
  if (!name.includes("*")) return name === text;
  return new RegExp(`^${name.replace(/[.\\^$+?()[\]{}|]/g, "\\$&").replaceAll("*", "[^.]+")}$`).test(text);
}
