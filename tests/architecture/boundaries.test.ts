import { readdirSync } from "node:fs";
import path from "node:path";
import { cruise, type ICruiseResult } from "dependency-cruiser";
import extractTSConfig from "dependency-cruiser/config-utl/extract-ts-config";
import { beforeAll, expect, test } from "vitest";
import rules from "./dependency-rules.mjs";

const root = path.resolve(import.meta.dirname, "../..");

let seen: ICruiseResult;

beforeAll(async () => {
  const { output } = await cruise(
    ["app", "lib", "seed", "proxy.ts"],
    {
      ruleSet: rules,
      validate: true,
      baseDir: root,
      // Counts imports that only types pass through: they tie the layers together all the same.
      tsPreCompilationDeps: true,
      doNotFollow: { path: ["node_modules", "^lib/data/generated"] },
      exclude: { path: "\\.css$" },
      enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["react-server", "import", "require", "node", "default", "types"], extensions: [".ts", ".tsx", ".mjs", ".js", ".d.ts"] },
    },
    { bustTheCache: true, alias: { "@": root } },
    { tsConfig: extractTSConfig(path.join(root, "tsconfig.json")) },
  );
  if (typeof output === "string") throw new Error(output);
  seen = output;
});

test("imports point one way only and in no circle, and the whole domain is in use", () => {
  expect(seen.summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`)).toEqual([]);
});

test("the checker saw every module of lib, and what each imports", () => {
  const files = readdirSync(path.join(root, "lib"), { recursive: true, encoding: "utf8" }).filter((name) => /\.(ts|mjs)$/.test(name) && !/\.d\.ts$/.test(name) && !name.startsWith(path.join("data", "generated")));
  const modules = new Set(seen.modules.map((module) => module.source));
  expect(files.filter((name) => !modules.has(path.posix.join("lib", name.replaceAll(path.sep, "/"))))).toEqual([]);
  expect(seen.modules.find((module) => module.source === "lib/data/client.ts")?.dependencies.map((dependency) => dependency.resolved)).toContain("lib/env.ts");
});
