import { expect, type Page, test } from "@playwright/test";
import sharp from "sharp";
import { expectAccessible } from "./pages/axe";
import { signIn } from "./pages/desk";
import { unitHere } from "./pages/unit-here";

const GLOVES_PX = 44;

const heading = (page: Page) => page.getByRole("heading", { level: 1 });
const answer = (page: Page, question: string | RegExp, option: string) => page.getByRole("group", { name: question }).getByText(option, { exact: true });
const keep = (page: Page) => page.getByRole("button", { name: "Keep and go on" });

/** What is to be touched on the page and is too small for a glove; what lies in running text or inside a larger label is not. */
async function tooSmall(page: Page): Promise<string[]> {
  return page.locator("main").evaluate(
    (main, least) =>
      [...main.querySelectorAll("a, button, summary, select, label:has(input), input:not([type=hidden], [hidden])")].flatMap((target) => {
        const { width, height } = target.getBoundingClientRect();
        const isShown = width > 1 && height > 1 && !target.closest(".visually-hidden");
        return isShown && !target.parentElement?.closest("label, .error") && (width < least || height < least) ? [`${target.outerHTML.slice(0, 80)} ${width} x ${height}`] : [];
      }),
    GLOVES_PX,
  );
}

test("a unit is inspected on a tablet, with a signal that comes and goes", async ({ browser }) => {
  const { claimId, number } = await unitHere(`bo.bench.${Date.now()}@example.org`, "VT40-2608-0021");
  const tablet = await browser.newContext({ viewport: { width: 768, height: 1024 }, hasTouch: true });
  const page = await tablet.newPage();

  await test.step("the bench lands where its units are, and begins with one press", async () => {
    await signIn(page, "bench");
    await page.getByRole("link", { name: `Inspect ${number}` }).tap();
    await expect(heading(page)).toHaveText(`Inspect the unit of ${number}`);
    await page.getByRole("button", { name: "Begin" }).tap();
    await expect(heading(page)).toHaveText("Is it the unit");
    await answer(page, "Is it the serial shown above?", "Yes, this serial").tap();
    await keep(page).tap();
    await expect(heading(page)).toHaveText("As it came");
  });

  await test.step("a photo arrives while the step is still open, and what cannot be done is skipped", async () => {
    const buffer = await sharp({ create: { width: 300, height: 200, channels: 3, background: "#456" } }).jpeg().toBuffer();
    await expect(page.getByRole("button", { name: "Take a photo" }).or(page.getByRole("button", { name: "Choose photos" })).first()).toBeVisible();
    await page.locator('input[type="file"][multiple]').setInputFiles({ name: "crate.jpg", mimeType: "image/jpeg", buffer });
    await expect(page.getByRole("img", { name: "1 of 1, open it large" })).toBeVisible();
    await page.getByRole("button", { name: "Skip for now" }).tap();
    await expect(page.getByRole("status").filter({ hasText: "As it came: skipped" })).toBeVisible();
  });

  await test.step("one step goes by the keyboard alone", async () => {
    await expect(heading(page)).toHaveText("Drain outlet and flange");
    const reach = async (question: RegExp) => {
      const field = page.getByRole("group", { name: question });
      for (let tabs = 0; tabs < 30 && !(await field.evaluate((group) => group.contains(document.activeElement))); tabs += 1) await page.keyboard.press("Tab");
      return field;
    };
    const sealant = await reach(/^Is there sealant/);
    await page.keyboard.press("Space");
    await page.keyboard.press("ArrowDown");
    await expect(sealant.getByRole("radio", { name: "On the flange only" })).toBeChecked();
    await reach(/^How is the gasket/);
    await page.keyboard.press("Space");
    await page.keyboard.press("Enter");
    await expect(heading(page)).toHaveText("Play fore and aft");
  });

  await test.step("an odd number is asked about, and what is typed outlives a page loaded anew and a lost signal", async () => {
    const reading = page.getByRole("textbox", { name: /^How far does the shaft move fore and aft/ });
    const press = async (keys: string) => {
      for (const key of keys) await page.getByRole("group", { name: /^Keys for/ }).getByRole("button", { name: key, exact: true }).tap();
    };
    await press("31");
    await keep(page).tap();
    await expect(page.getByRole("alert").filter({ hasText: "unusual" })).toBeVisible();
    for (const _ of "31") await page.getByRole("button", { name: "Take the last figure back" }).tap();
    await press("0.31");
    await expect(page.getByText(/^0\.31 mm: over by/)).toBeVisible();
    await answer(page, /^Turned by hand/, "It drags or touches").tap();
    // Kept on the tablet once the typing pauses.
    await expect.poll(() => page.evaluate(() => Object.values(localStorage).join())).toContain('"F40":"present"');
    await page.reload();
    await expect(reading).toHaveValue("0.31");
    await expect(page.getByRole("radio", { name: "It drags or touches" })).toBeChecked();
    expect(await tooSmall(page)).toEqual([]);
    await expectAccessible(page);

    await tablet.setOffline(true);
    await keep(page).tap();
    await expect(page.getByRole("status").filter({ hasText: "Not sent yet: no signal" })).toBeVisible();
    await expect(reading).toHaveValue("0.31");
    await tablet.setOffline(false);
    await expect(page.getByRole("status").filter({ hasText: /^Play fore and aft: kept\./ })).toBeVisible();
  });

  await test.step("a finding moves the ranking, and the page says from where to where", async () => {
    await page.getByRole("link", { name: /Seal rings, open/ }).tap();
    await answer(page, /^Is a seal ring/, "Off its groove, broken or wrong").tap();
    await keep(page).tap();
    await expect(page.getByRole("status").filter({ hasText: /^Seal rings: kept\. Unit at fault: [\d<>.]+ % \u2192 [\d<>.]+ %/ })).toBeVisible();
  });

  await test.step("everything kept stands on one page, and the end leads to what becomes of the unit", async () => {
    await page.getByRole("link", { name: /^All/ }).last().tap();
    await expect(page.getByText("0.31 mm")).toBeVisible();
    await expect(page.getByText("One photo.")).toBeVisible();
    expect(await tooSmall(page)).toEqual([]);
    await expectAccessible(page);
    await page.getByRole("button", { name: "Finish the inspection" }).tap();
    await expect(heading(page)).toHaveText(`What becomes of the unit of ${number}`);
    expect(await tooSmall(page)).toEqual([]);
    await page.getByRole("radio", { name: /^held as evidence/ }).check();
    await expect(page.getByLabel("Kept until")).not.toHaveValue("");
    await page.getByRole("button", { name: "Decide" }).tap();
    await page.waitForURL((url) => url.pathname === `/queue/${claimId}`);
    await page.goto("/returns");
    await expect(page.getByText(number)).toHaveCount(0);
    await page.getByRole("link", { name: "Evidence held" }).tap();
    await expect(page.getByRole("link", { name: number }).first()).toBeVisible();
    await expectAccessible(page);
  });
  await tablet.close();
});
