import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import ts from "typescript";
import { describe, expect, test } from "vitest";

const root = path.resolve(import.meta.dirname, "../..");

function sourcesUnder(folder: string): ts.SourceFile[] {
  return readdirSync(path.join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name) && !name.includes("generated"))
    .map((name) => {
      const file = path.join(root, folder, name);
      return ts.createSourceFile(path.relative(root, file), readFileSync(file, "utf8"), ts.ScriptTarget.Latest, true);
    });
}

function hasDirective(body: ts.NodeArray<ts.Statement>, directive: string): boolean {
  const first = body[0];
  return first !== undefined && ts.isExpressionStatement(first) && ts.isStringLiteral(first.expression) && first.expression.text === directive;
}

function exportedFunctions(source: ts.SourceFile): ts.FunctionDeclaration[] {
  return source.statements.filter(
    (statement): statement is ts.FunctionDeclaration =>
      ts.isFunctionDeclaration(statement) && (statement.modifiers?.some((modifier) => modifier.kind === ts.SyntaxKind.ExportKeyword) ?? false),
  );
}

describe("server actions", () => {
  const files = sourcesUnder("app").filter((source) => hasDirective(source.statements, "use server"));
  const actions = files.flatMap((source) => exportedFunctions(source).map((action) => ({ source, action })));

  test("are found", () => {
    expect(actions.length).toBeGreaterThan(5);
  });

  test.each(actions.map(({ source, action }) => [`${source.fileName} ${action.name?.text}`, action] as const))("%s begins by checking the origin", (_, action) => {
    const first = action.body?.statements[0]?.getText() ?? "";
    expect(first).toBe("await requireOwnOrigin();");
  });

  test("stand in files of their own, where this test sees them", () => {
    const hidden = sourcesUnder("app").filter((source) => !hasDirective(source.statements, "use server") && /["']use server["']/.test(source.text));
    expect(hidden.map((source) => source.fileName)).toEqual([]);
  });
});

describe("operations", () => {
  const operations = sourcesUnder("lib/operations").flatMap((source) => exportedFunctions(source).map((operation) => ({ source, operation })));
  const byStaff = operations.filter(({ operation }) => /\b(StaffActor|Actor)\b/.test(operation.parameters[0]?.type?.getText() ?? ""));

  test("are found", () => {
    expect(byStaff.length).toBeGreaterThan(8);
  });

  // Refusing is what `refuse` itself does, and naming an actor needs no permission.
  const without = new Set(["refuse", "auditActor"]);
  test.each(byStaff.filter(({ operation }) => !without.has(operation.name?.text ?? "")).map(({ source, operation }) => [`${source.fileName} ${operation.name?.text}`, operation] as const))(
    "%s asks for a permission",
    (_, operation) => {
      expect(operation.body?.getText() ?? "").toMatch(/\b(refuse|may)\(/);
    },
  );
});
