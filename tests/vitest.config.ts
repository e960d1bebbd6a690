import path from "node:path";
import { defineConfig } from "vitest/config";

const root = path.resolve(import.meta.dirname, "..");
const shared = {
  root,
  resolve: {
    alias: {
      "@": root,
      // It throws wherever there is no React server, and a test is none.
      "server-only": path.join(root, "tests/setup/server-only.ts"),
    },
  },
};
/** What lib/env.ts asks for; the address of the database comes from tests/setup. */
const env = {
  APP_ORIGIN: "http://127.0.0.1:3000",
  NEXTAUTH_SECRET: "a secret of forty characters for tests only",
  DATABASE_URL: "postgresql://nobody@127.0.0.1:1/no-database-in-unit-tests",
  LOG_LEVEL: "silent",
};

/** No test asserts a time: this only ends one that hangs, on a busy machine too. */
const PATIENCE_MS = 240_000;

export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      {
        ...shared,
        test: { name: "unit", include: ["tests/{unit,reference,architecture}/**/*.test.{ts,tsx}"], testTimeout: PATIENCE_MS, hookTimeout: PATIENCE_MS, env },
      },
      {
        ...shared,
        test: {
          name: "data",
          include: ["tests/data/**/*.test.ts"],
          globalSetup: ["tests/setup/template-database.ts"],
          setupFiles: ["tests/setup/worker-database.ts"],
          testTimeout: PATIENCE_MS,
          hookTimeout: PATIENCE_MS,
          env,
        },
      },
    ],
  },
});
