import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, type Page, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { openClaim, signIn } from "./pages/desk";

/** The walk begins in German by the browser's own list, as a German phone sends it. */
test.use({ locale: "de-DE" });

const files = path.resolve(import.meta.dirname, "../../lib/messages");
const textsOf = (language: string) => new Set(leaves(JSON.parse(readFileSync(path.join(files, `${language}.json`), "utf8"))));

function leaves(node: unknown): string[] {
  return typeof node === "string" ? [node] : Object.values(node as Record<string, unknown>).flatMap(leaves);
}

const german = textsOf("de");
/** English texts that no German one is equal to, and that nothing fills. */
const english = [...textsOf("en")].filter((text) => !german.has(text) && !/[{<]/.test(text));

/** Small words that no German sentence has. */
const ENGLISH_WORDS = /\b(the|and|you|your|with|what|where|which|does|from|choose|write)\b/i;

/** What a person can read on the page, as single texts; what is marked as English is meant to be. */
async function readable(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const holder = node.parentElement;
      const text = node.textContent?.trim() ?? "";
      if (text && holder && !holder.closest("script, style, noscript, [lang=en], .title-block dd, select option")) found.push(text);
    }
    for (const named of document.querySelectorAll("[aria-label], [alt]")) found.push(named.getAttribute("aria-label") ?? named.getAttribute("alt") ?? "");
    return found;
  });
}

async function expectGerman(page: Page): Promise<void> {
  await expect(page.locator("html")).toHaveAttribute("lang", "de");
  const texts = await readable(page);
  expect(texts.filter((text) => english.includes(text)), page.url()).toEqual([]);
  expect(texts.filter((text) => ENGLISH_WORDS.test(text) && text !== "Fit or Fault"), page.url()).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), `overflow of ${page.url()}`).toBeLessThanOrEqual(0);
}

/** Small words that no English sentence has. */
const GERMAN_WORDS = /\b(und|nicht|ist|das|Sie|wir|Ihre?|für|haben)\b/;

/** The page is English: what is written in German on it says so, and what is not does not. */
async function expectGermanMarked(page: Page): Promise<void> {
  await expect(page.locator("html")).toHaveAttribute("lang", "en");
  const texts = await page.evaluate(() => {
    const found: { text: string; language: string }[] = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const holder = node.parentElement;
      const text = node.textContent?.trim() ?? "";
      if (text && holder && !holder.closest("script, style, noscript")) found.push({ text, language: holder.closest("[lang]")?.getAttribute("lang") ?? "" });
    }
    return found;
  });
  const isGerman = (text: string) => GERMAN_WORDS.test(text);
  expect(texts.filter(({ text, language }) => isGerman(text) && language !== "de"), `German that does not say so on ${page.url()}`).toEqual([]);
  expect(texts.filter(({ text, language }) => ENGLISH_WORDS.test(text) && language === "de"), `English that is called German on ${page.url()}`).toEqual([]);
  expect(texts.filter(({ text }) => isGerman(text)), `German on ${page.url()}`).not.toEqual([]);
}

/** Answers whatever is asked with the first choice, but without an order. */
async function answer(page: Page): Promise<void> {
  for (const group of await page.locator("main fieldset").all()) {
    if (!(await group.isVisible()) || (await group.getByRole("radio").count()) === 0) continue;
    const kit = group.locator('input[name="by"][value="kit"]');
    await ((await kit.count()) > 0 ? kit : group.getByRole("radio").first()).check({ force: true });
  }
  for (const choice of await page.locator("main form select").all()) if (await choice.isVisible()) await choice.selectOption({ index: 1 });
  if (page.url().endsWith("/contact")) {
    await page.getByLabel("Ihr Name").fill("Ada Örnek");
    await page.getByLabel("E-Mail-Adresse").fill("ada.oernek@example.org");
  }
}

test("a complaint is filed in German from the first page to the private page, with no English left, and the pages of staff say what is in German", async ({ page, browser }) => {
  await page.goto("/");
  await expectGerman(page);
  await expectAccessible(page);
  await page.goto("/claim");
  await expectGerman(page);

  await page.goto("/intake/who");
  await page.getByRole("button", { name: "Weiter" }).click();
  await expect(page.getByRole("alert").filter({ hasText: "Wählen Sie, wer Sie sind" })).toBeFocused();
  await expect(page).toHaveTitle(/^Fehler:/);
  for (let screens = 0; !page.url().endsWith("/review"); screens += 1) {
    expect(screens).toBeLessThan(30);
    await expectGerman(page);
    await answer(page);
    const before = page.url();
    await page.getByRole("button", { name: "Weiter", exact: true }).click();
    await page.waitForURL((url) => url.href !== before);
  }
  await expectGerman(page);
  await page.getByRole("button", { name: "Jetzt absenden" }).click();
  await page.waitForURL(/\/claim\/[2-9A-Z]/);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Ihre Reklamation ist bei uns");
  await expectGerman(page);
  await expectAccessible(page);
  await page.getByLabel("Ihre Nachricht").fill("Es tropft noch immer, und das Auto ist nicht fahrbereit.");
  await page.getByRole("button", { name: "Senden", exact: true }).click();
  await expect(page.getByText("Es tropft noch immer").first()).toBeVisible();

  const desk = await (await browser.newContext({ locale: "en-GB", viewport: { width: 1440, height: 900 } })).newPage();
  await signIn(desk, "support");
  await openClaim(desk, /\/claim\/([2-9A-Z-]+)/.exec(page.url())?.[1] ?? "");
  await desk.waitForURL(/\/queue\/[0-9a-f-]{36}$/);
  await expect(desk.getByText("Es tropft noch immer").first()).toBeVisible();
  await expectGermanMarked(desk);
  await expect(desk.getByLabel("Message to the customer")).toHaveAttribute("lang", "de");
  const claim = new URL(desk.url()).pathname;
  await desk.goto("/queue/search?q=fahrbereit");
  await expectGermanMarked(desk);

  await desk.goto(`${claim}/verdict`);
  await desk.getByLabel("Primary cause").selectOption({ index: 1 });
  await desk.getByLabel("What is done").selectOption("advice alone");
  const origin = desk.getByLabel("Where it lies");
  await origin.selectOption({ index: 1 });
  await desk.getByLabel("Explanation, in the letter").fill("Danke, Foto angesehen.");
  await desk.getByRole("textbox", { name: "Reason" }).fill("Told on the telephone.");
  await desk.getByRole("button", { name: "Preview the letter" }).click();
  const still = desk.getByLabel("I have looked at this and decide it all the same");
  const letter = desk.getByRole("heading", { name: "This letter goes out" });
  await expect(still.or(letter).first()).toBeVisible();
  if (await still.isVisible()) {
    await still.check();
    await desk.getByRole("button", { name: "Preview the letter" }).click();
  }
  await expect(letter).toBeVisible();
  await expectGermanMarked(desk);
  await desk.getByRole("button", { name: "Confirm and send it" }).click();
  await desk.waitForURL((url) => url.pathname === claim);
  await desk.goto(`${claim}/letter`);
  await expectGermanMarked(desk);

  await desk.goto("/mail");
  await expectGermanMarked(desk);
  await desk.locator("main [lang=de]").first().click();
  await desk.waitForURL(/\/mail\/[0-9a-f-]{36}$/);
  await expect(desk.locator("h1")).toHaveAttribute("lang", "de");
  await expectGermanMarked(desk);
  await desk.context().close();
});

test("the page changes to English and back by its switch, without script as well", async ({ browser }) => {
  for (const javaScriptEnabled of [true, false]) {
    const context = await browser.newContext({ locale: "de-DE", javaScriptEnabled });
    const page = await context.newPage();
    await page.goto("/");
    await page.getByRole("button", { name: "English" }).click();
    await expect(page.locator("html")).toHaveAttribute("lang", "en");
    await expect(page.getByRole("heading", { level: 1 })).toContainText("newly fitted turbo");
    await page.goto("/claim");
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Open your complaint");
    await page.getByRole("button", { name: "Deutsch" }).click();
    await expect(page.locator("html")).toHaveAttribute("lang", "de");
    await context.close();
  }
});
