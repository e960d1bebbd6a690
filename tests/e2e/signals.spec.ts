import { expect, type Page, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { signIn } from "./pages/desk";
import { sellFaultyBatch } from "./pages/faulty-batch";

test.beforeAll(sellFaultyBatch);

/** Verdicts of other journeys may stand out beside it. */
const ofTheBatch = (page: Page) => page.getByRole("listitem").filter({ has: page.getByRole("heading", { name: /^Batch .*thrust bearing/i }) });

test("a product manager comes to the claims behind a signal in four actions, and marks what was done", async ({ page }) => {
  await signIn(page, "product");
  await page.goto("/reports/signals");
  await page.getByRole("button", { name: "Look now" }).click();
  await expect(page.getByText("A look was asked for")).toBeVisible();
  await expect(async () => {
    await page.goto("/reports/signals");
    await expect(page.getByRole("heading", { level: 1 })).toHaveText(/(One signal waits|\d+ signals wait) for a decision/, { timeout: 2_000 });
  }).toPass({ timeout: 120_000 });
  for (const width of [360, 1440]) {
    await page.setViewportSize({ width, height: 900 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    await expectAccessible(page);
  }
  await page.getByRole("button", { name: "Sign out" }).click();

  // The first action is signing in.
  await signIn(page, "product");
  await page.getByRole("link", { name: /signals? waits? for a decision/ }).click();
  const behind = ofTheBatch(page).getByRole("link", { name: /^See the \d+ claims$/ });
  const claims = /\d+/.exec((await behind.textContent()) ?? "")?.[0];
  await behind.click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(new RegExp(`^${claims} claims:`));
  await page.getByRole("rowheader").getByRole("link").first().click();
  await expect(page).toHaveURL(/\/queue\/[0-9a-f-]{36}$/);

  await page.goto("/reports/signals?state=waiting");
  await ofTheBatch(page).getByRole("link", { name: "Mark what was done" }).click();
  const signal = page.url();
  const form = page.locator("form").filter({ has: page.getByRole("button", { name: "Mark it" }) });
  await form.getByLabel("What was done").selectOption("supplier told");
  await form.getByLabel("Note").fill("Wrote to the supplier about the thrust bearings");
  await form.getByRole("button", { name: "Mark it" }).click();
  await expect(form.getByText("Say from which month on it ships so")).toBeVisible();
  await expect(form.getByLabel("What was done")).toHaveValue("supplier_told");
  await expect(form.getByLabel("Note")).toHaveValue("Wrote to the supplier about the thrust bearings");
  for (const width of [360, 1440]) {
    await page.setViewportSize({ width, height: 900 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    await expectAccessible(page);
  }
  await form.getByLabel("Holds for what ships from").fill(new Date().toISOString().slice(0, 7));
  await form.getByRole("button", { name: "Mark it" }).click();
  await expect(page.getByText("It is marked.")).toBeVisible();
  await expect(async () => {
    await page.goto(signal);
    await expect(page.getByText(/^Too early to say/)).toBeVisible({ timeout: 2_000 });
  }).toPass({ timeout: 120_000 });
  await page.goto("/reports/signals?state=supplier_told");
  await expect(page.getByText("Wrote to the supplier about the thrust bearings")).toBeVisible();
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("support reads the list and is offered no decision", async ({ page }) => {
    await signIn(page, "support");
    await page.goto("/reports/signals");
    await expect(page.getByRole("heading", { level: 1 })).toHaveText(/signal|Nothing stands out/);
    await expect(page.getByRole("button", { name: "Look now" })).toHaveCount(0);
    await expect(page.getByRole("link", { name: "Mark what was done" })).toHaveCount(0);
  });
});
