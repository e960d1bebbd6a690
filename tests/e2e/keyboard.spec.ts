import { expect, test } from "@playwright/test";
import { answerByKeyboard, screenOf, tabTo } from "./pages/intake";

test("a complaint is filed by the keyboard alone from the first page, at the width of a tablet", async ({ page }) => {
  await page.setViewportSize({ width: 768, height: 1024 });
  await page.goto("/");
  await tabTo(page, page.getByRole("link", { name: "Start a complaint" }));
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/intake\/who$/);
  for (let screens = 0; screenOf(page) !== "review"; screens += 1) {
    expect(screens).toBeLessThan(20);
    await expect(page.getByRole("button", { name: "Continue" })).toBeInViewport();
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), page.url()).toBeLessThanOrEqual(0);
    await answerByKeyboard(page, screenOf(page));
    const before = page.url();
    await tabTo(page, page.getByRole("button", { name: "Continue" }));
    await page.keyboard.press("Enter");
    await page.waitForURL((url) => url.href !== before);
  }
  await tabTo(page, page.getByRole("button", { name: /^Send/ }));
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/claim\/[2-9A-Z]/);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("We have your complaint");
});
