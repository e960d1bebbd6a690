import { expect, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { signIn } from "./pages/desk";

test("an administrator lets the worker learn, reads the backtest and comes to the edition that waits to be decided", async ({ page }) => {
  await signIn(page, "admin");
  await page.goto("/knowledge/learning");
  await page.getByRole("button", { name: "Learn from the verdicts and propose an edition" }).click();
  await expect(page.getByText("asked for it")).toBeVisible();
  const decide = page.getByRole("link", { name: /^See what edition \d+ changes, and decide$/ });
  await expect(async () => {
    await page.goto("/knowledge/learning");
    await expect(page.getByText(/Edition \d+ was proposed|Nothing was proposed/)).toBeVisible({ timeout: 2_000 });
  }).toPass({ timeout: 120_000 });
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/learned from verdicts/);
  await expect(page.getByRole("img", { name: /At first contact, what edition \d+ says is/ })).toBeVisible();
  await expect(page.getByRole("row", { name: /Log loss, each cause there or not/ }).first()).toContainText(/better|worse|may be chance/);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
  await expectAccessible(page);
  await decide.click();
  await expect(page).toHaveURL(/\/knowledge\/\d+$/);
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("a product manager reads the same and is offered no act", async ({ page }) => {
    await signIn(page, "product");
    await page.goto("/knowledge/learning");
    await expect(page.getByRole("heading", { level: 2 }).first()).toContainText("verdicts rest on");
    await expect(page.getByRole("button", { name: /Learn from the verdicts/ })).toHaveCount(0);
  });
});
