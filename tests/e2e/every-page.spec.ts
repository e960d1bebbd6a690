import { type BrowserContext, expect, type Page, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { signIn } from "./pages/desk";
import { DESK_PAGES, goToExample, routesThereAre, SEEN_ELSEWHERE } from "./pages/every-page";

test("every page is looked at somewhere", () => {
  const seen = new Set([...DESK_PAGES.map(({ route }) => route), ...Object.keys(SEEN_ELSEWHERE)]);
  expect(routesThereAre().filter((route) => !seen.has(route))).toEqual([]);
});

/** Sound at a desk and on a phone, in light and in dark, at 400 % zoom (1280 px are 320 then), without motion, and on paper. */
async function expectSound(page: Page, come: () => Promise<unknown>): Promise<void> {
  const complaints: string[] = [];
  page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  page.on("pageerror", ({ message }) => complaints.push(message));
  await come();
  expect(await page.locator("h1").count(), "one heading of the first order").toBe(1);
  expect(await page.locator("main").innerText()).not.toMatch(/\b(NaN|Infinity|undefined|null)\b/);
  await page.setViewportSize({ width: 1440, height: 900 });
  await expectAccessible(page, "dark");
  await page.setViewportSize({ width: 360, height: 740 });
  await expectAccessible(page, "light");
  await page.setViewportSize({ width: 320, height: 256 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), "nothing sticks out at 400 % zoom").toBeLessThanOrEqual(0);
  await page.emulateMedia({ reducedMotion: "reduce" });
  expect(await page.evaluate(() => document.getAnimations().length), "nothing moves for who wants no motion").toBe(0);
  // A4 at 96 dots an inch, less margins of 10 mm.
  await page.setViewportSize({ width: 718, height: 1000 });
  await page.emulateMedia({ media: "print" });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), "nothing is cut off on paper").toBeLessThanOrEqual(0);
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  await page.emulateMedia({ media: null, reducedMotion: null });
  expect(complaints).toEqual([]);
}

for (const who of new Set(DESK_PAGES.map(({ who }) => who))) {
  test.describe(`what a ${who} sees`, () => {
    let context: BrowserContext;
    test.beforeAll(async ({ browser }) => {
      context = await browser.newContext();
      const page = await context.newPage();
      await signIn(page, who);
      await page.close();
    });
    test.afterAll(() => context.close());

    for (const [place, { route, example }] of DESK_PAGES.filter((one) => one.who === who).entries()) {
      test(`${place + 1}: /${route}`, async () => {
        const page = await context.newPage();
        await expectSound(page, () => goToExample(page, example));
        await page.close();
      });
    }
  });
}

for (const address of ["/", "/claim", "/sign-in", "/sign-in/set-password?key=none"]) {
  test(`open to all: ${address}`, async ({ page }) => {
    await expectSound(page, () => page.goto(address));
  });
}
