import { defineConfig } from "@playwright/test";

/** Set by `npm test`: where the built application answers, and which browser to use. */
const origin = process.env.E2E_ORIGIN ?? "http://127.0.0.1:3000";
const executablePath = process.env.CHROMIUM_PATH;

export default defineConfig({
  testDir: ".",
  outputDir: "../../.data/playwright",
  fullyParallel: false,
  workers: 1,
  retries: 0,
  // No journey asserts a time: these only end one that hangs, on a busy machine too.
  timeout: 240_000,
  expect: { timeout: 30_000 },
  use: {
    baseURL: origin,
    trace: "retain-on-failure",
    launchOptions: {
      ...(executablePath ? { executablePath } : {}),
      args: ["--no-sandbox", "--disable-background-networking", "--disable-gpu"],
    },
  },
  projects: [
    // These set their widths themselves, and decide about what all claims are ranked or counted with: one walk each.
    { name: "phone", testIgnore: /(bench|every-page|keyboard|knowledge|signals|time)\.spec\.ts/, use: { viewport: { width: 360, height: 740 }, hasTouch: true } },
    { name: "desk", use: { viewport: { width: 1440, height: 900 } } },
  ],
});
