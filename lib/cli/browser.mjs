import { existsSync } from "node:fs";
import path from "node:path";
import { attempt, run } from "./processes.mjs";

/**
 * A Chromium: one that is there, else Debian's package when we may install it, else Playwright's own.
 *
 * @returns {Promise<string | undefined>} its path, or undefined for Playwright's own
 */
export async function findBrowser() {
  const there = browserThere();
  if (there) return there;
  if (process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
    await attempt("apt-get", ["update", "-qq"], { env, quiet: true });
    await attempt("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium"], { env, quiet: true });
    const installed = browserThere();
    if (installed) return installed;
  }
  await run(process.execPath, ["node_modules/@playwright/test/cli.js", "install", "chromium"], { failure: "No browser: none is there, and none could be installed. Set CHROMIUM_PATH." });
  return undefined;
}

function browserThere() {
  const folders = (process.env.PATH ?? "").split(path.delimiter);
  const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
  return [process.env.CHROMIUM_PATH, "/usr/bin/chromium", ...folders.flatMap((at) => names.map((name) => path.join(at, name))), "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome"].find((file) => file && existsSync(file));
}
