import { expect, type Page, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { signIn } from "./pages/desk";

const WIDTHS = [360, 1440] as const;

async function expectSound(page: Page): Promise<void> {
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 900 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), `nothing sticks out at ${width} px`).toBeLessThanOrEqual(0);
    expect(await page.locator("main").innerText()).not.toMatch(/NaN|Infinity|undefined|null/);
    await expectAccessible(page);
  }
}

test.describe("the reports about time", () => {

  test("narrow to a cause by month of filing, and lead from a mark to its claims", async ({ page }) => {
    await signIn(page, "product");
    await page.getByRole("link", { name: "claims by month" }).click();
    await expect(page.getByRole("figure").first()).toBeVisible();
    await expectSound(page);

    await page.getByLabel("Months are of").selectOption("filing");
    await page.getByLabel("Primary cause").selectOption({ label: "C07 Crankcase vent iced or clogged in service" });
    await page.getByRole("button", { name: "Show" }).click();
    await page.waitForURL(/by=filed.*cause=C07/);
    // The small demo of the tests has too few of them to tell a season; that the whole one does is held by the unit tests.
    await expect(page.getByRole("heading", { level: 1 })).toContainText(/no change|too few|season/);
    await expectSound(page);

    await page.goto("/reports/time/months");

    const mark = page.getByRole("figure").first().getByRole("link", { name: /: [2-9] claims on/ }).first();
    const claims = /: (\d+) claims/.exec((await mark.getAttribute("aria-label")) ?? "")?.[1];
    await mark.focus();
    await page.keyboard.press("Enter");
    await expect(page.getByRole("heading", { level: 1 })).toContainText(`${claims} claims`);
  });

  test("tell how soon units claim and what is still to come, and say so where there is nothing", async ({ page }) => {
    await signIn(page, "product");
    await page.goto("/reports/time/to-claim");
    await expect(page.getByRole("heading", { level: 1 })).toContainText("claims come early and die out");
    await expectSound(page);
    await page.getByLabel("A line for each").selectOption("cause");
    await page.getByRole("button", { name: "Show" }).click();
    await expectSound(page);

    await page.getByRole("link", { name: "Claims to come" }).click();
    await expect(page.getByRole("heading", { level: 1 })).toContainText("at least");
    await expectSound(page);
    await page.getByLabel("Months ahead, 1 to 24").fill("90");
    await page.getByRole("button", { name: "Show" }).click();
    await expect(page.getByText("Further ahead than 24 months nothing is told.")).toBeVisible();
    await expect(page.getByLabel("Months ahead, 1 to 24")).toHaveValue("90");

    for (const path of ["months", "to-claim", "forecast"]) {
      await page.goto(`/reports/time/${path}?from=2001-01&to=2001-12`);
      await expect(page.getByRole("heading", { level: 1 })).toContainText("nothing");
      await expectSound(page);
    }
  });
});
