import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { expect, type Page } from "@playwright/test";
import type { AxeResults } from "axe-core";

const source = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Asks axe for every rule of WCAG 2.2 A and AA on the page as it stands, in light and in dark where not one of them is named. */
export async function expectAccessible(page: Page, ...schemes: readonly ("light" | "dark")[]): Promise<void> {
  for (const colorScheme of schemes.length > 0 ? schemes : (["light", "dark"] as const)) {
    // Colours fade from one scheme to the other: measured half-way, a button would fail that nobody sees.
    await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    await page.evaluate(() => {
      for (const animation of document.getAnimations()) animation.finish();
    });
    await page.evaluate(source);
    const { violations } = await page.evaluate(() => (globalThis as unknown as { axe: { run(options: object): Promise<AxeResults> } }).axe.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }));
    expect(violations.map(({ id, nodes }) => `${colorScheme}: ${id}: ${nodes.slice(0, 3).map(({ html }) => html.slice(0, 160)).join(" | ")}`)).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: "light", reducedMotion: null });
}
