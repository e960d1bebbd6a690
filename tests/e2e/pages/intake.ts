import { expect, type Locator, type Page } from "@playwright/test";

/** What a customer answers, screen by screen; a screen that is not named is answered with "I don't know". */
export interface Complaint {
  who?: "I own the vehicle" | "I work on vehicles";
  order?: { number: string; email: string };
  serial?: string;
  /** Number of the kit, picked from the list. */
  kit?: string;
  /** Both units of a compound pair leak: the serial of the one that was not bought. */
  bothOfPair?: string;
  oil?: "In the exhaust side" | "In the air side" | "In both" | "Only on the outside" | "I cannot see it from here";
  drain?: "It runs level, rises or sags somewhere" | "It falls all the way";
  vent?: "Into the intake, ahead of the compressor" | "To the open air" | "Into a catch can" | "Nowhere: it is capped";
  words?: string;
  photo?: string;
  name?: string;
  email?: string;
}

const DONT_KNOW = /^I (don\u2019t know|have not looked)/;

/** Continue, and wait for the next screen. */
export async function goOn(page: Page): Promise<void> {
  const before = page.url();
  await page.getByRole("button", { name: "Continue" }).click();
  await page.waitForURL((url) => url.href !== before);
}

/** Walks the intake from its address up to the review. Returns how many screens were continued from. */
export async function answerIntake(page: Page, complaint: Complaint = {}): Promise<number> {
  await page.goto("/intake");
  for (let screens = 0; screens < 30; screens += 1) {
    if (screenOf(page) === "review") return screens;
    await answerScreen(page, screenOf(page), complaint);
    await goOn(page);
  }
  throw new Error("the intake does not end");
}

/** The screen the page shows; without a signal its name stands behind the hash. */
export function screenOf(page: Page): string {
  const { hash, pathname } = new URL(page.url());
  return hash.slice(1) || (pathname.split("/").at(-1) ?? "");
}

/** Answers everything and files. Returns the reference. */
export async function fileClaim(page: Page, complaint: Complaint = {}): Promise<string> {
  await answerIntake(page, complaint);
  await page.getByRole("button", { name: /^Send/ }).click();
  await page.waitForURL(/\/claim\/[2-9A-Z]{4}-[2-9A-Z]{3}-[2-9A-Z]{3}/);
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  return new URL(page.url()).pathname.split("/")[2] ?? "";
}

export async function answerScreen(page: Page, screen: string, complaint: Complaint): Promise<void> {
  const choose = (label: string | RegExp) => page.locator("label", { hasText: label }).first().click();
  switch (screen) {
    case "who":
      return choose(complaint.who ?? "I own the vehicle");
    case "purchase":
      return choose(complaint.order ? "Order number and e-mail" : complaint.serial ? "Serial number on the unit" : "I have neither");
    case "order":
      await page.getByLabel("Order number").fill(complaint.order?.number ?? "");
      return page.getByLabel("E-mail address of the order").fill(complaint.order?.email ?? "");
    case "serial":
      return page.getByLabel("Serial number").fill(complaint.serial ?? "");
    case "kit":
      await page.getByLabel("Kit").selectOption(complaint.kit ? await page.getByRole("option", { name: complaint.kit }).getAttribute("value") : { index: 1 });
      return;
    case "vehicle": {
      // Without a kit to tell which it fits, there are too many to choose among at sight.
      const list = page.getByLabel("Vehicle", { exact: true }).and(page.locator("select"));
      if ((await list.count()) === 0) break;
      await list.selectOption({ value: "other" });
      await page.getByRole("textbox").fill("Bracken Moor 2.2");
      break;
    }
    case "oil":
      await choose(complaint.oil ?? "In the exhaust side");
      if (complaint.bothOfPair) {
        await choose(/^Both/);
        await page.getByLabel(/^Serial number of the (large|small) one/).fill(complaint.bothOfPair);
      }
      break;
    case "drain":
      return choose(complaint.drain ?? DONT_KNOW);
    case "vent":
      return choose(complaint.vent ?? DONT_KNOW);
    case "pictures":
      if (complaint.words) await page.getByRole("textbox").fill(complaint.words);
      if (complaint.photo) {
        await page.locator('input[type="file"]').first().setInputFiles(complaint.photo);
        await expect(page.locator('main img[src*="/intake/photos/"]')).toBeVisible();
      }
      return;
    case "contact":
      await page.getByLabel("Your name").fill(complaint.name ?? "Runa Terrane");
      return page.getByLabel("E-mail address").fill(complaint.email ?? "runa@example.org");
    default:
      break;
  }
  await answerTheRest(page);
}

/** "I don't know" in every group still open; the first choice where there is none. */
async function answerTheRest(page: Page): Promise<void> {
  for (const group of await page.locator("fieldset").all()) {
    if (!(await group.isVisible()) || (await group.getByRole("radio", { checked: true }).count()) > 0) continue;
    const choices = group.locator("label:visible");
    const dontKnow = choices.filter({ hasText: DONT_KNOW });
    await ((await dontKnow.count()) > 0 ? dontKnow : choices).first().click();
  }
}

/** Tells what one of the advised checks has found, whose form is unfolded: the first answer, or a number. */
export async function tellCheck(check: Locator): Promise<void> {
  const number = check.locator('input[inputmode="decimal"]:visible').first();
  await ((await number.count()) > 0 ? number.fill("4") : check.locator("label:visible").first().click());
  await check.getByRole("button", { name: "Keep what I found" }).click();
}

/** Goes on by Tab until this has the focus. */
export async function tabTo(page: Page, control: Locator): Promise<void> {
  for (let tabs = 0; tabs < 60; tabs += 1) {
    if (await control.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`Tab does not lead to ${control}`);
}

/** Answers a screen with Tab, Space, arrows and letters: the first choice of each group, and no order. */
export async function answerByKeyboard(page: Page, screen: string): Promise<void> {
  if (screen === "contact") {
    for (const [label, text] of [["Your name", "Runa Terrane"], ["E-mail address", "runa.keys@example.org"]] as const) {
      await tabTo(page, page.getByLabel(label));
      await page.keyboard.type(text);
    }
    return;
  }
  for (const list of await page.locator("main form select").all()) {
    if (!(await list.isVisible()) || (await list.inputValue()) !== "") continue;
    await tabTo(page, list);
    await page.keyboard.press("ArrowDown");
  }
  for (const group of await page.locator("main fieldset").all()) {
    if (!(await group.isVisible())) continue;
    await tabTo(page, group.getByRole("radio").first());
    await page.keyboard.press("Space");
    // Of the ways to find the purchase the last needs no order.
    if (screen === "purchase") for (let down = 0; down < 2; down += 1) await page.keyboard.press("ArrowDown");
    await expect(group.getByRole("radio", { checked: true })).toHaveCount(1);
  }
}
