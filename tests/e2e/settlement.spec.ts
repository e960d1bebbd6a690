import { expect, type Page, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { mailTo, soundUnit } from "./pages/demo";
import { openClaim, signIn } from "./pages/desk";
import { fileClaim } from "./pages/intake";

test("a verdict above the set value waits for a second person, is objected to, and what is booked adds up", async ({ browser, page: customer }, { project }) => {
  const email = `lorn.${project.name}@example.org`;
  const { serial } = await soundUnit();
  const reference = await fileClaim(customer, {
    serial,
    oil: "In the exhaust side",
    drain: "It runs level, rises or sags somewhere",
    vent: "Into the intake, ahead of the compressor",
    words: "A spoon of oil in the downpipe a week after it was fitted.",
    email,
  });
  const atDesk = async (name: string) => {
    const page = await (await browser.newContext({ viewport: project.use.viewport ?? null })).newPage();
    await signIn(page, "support", name);
    return page;
  };
  const iris = await atDesk("Iris Velthuis");
  await openClaim(iris, reference);
  await iris.waitForURL(/\/queue\/[-0-9a-f]{36}/);
  const claim = new URL(iris.url()).pathname;

  await test.step("Iris reads what each remedy costs and what the terms say, and proposes", async () => {
    await iris.goto(`${claim}/verdict`);
    const restsOn = iris.locator("#rests-on");
    await expect(restsOn.getByText("cost alone is no ground to refuse")).toBeVisible();
    await expect(restsOn.getByText("What the law gives a consumer comes first.")).toBeVisible();
    await expect(restsOn.getByText("nothing follows from it by itself: the verdict is yours")).toBeVisible();
    await chooseKitDrain(iris, "replace the unit");
    await say(iris, { Reason: "The drain of the kit is cut short.", "What it comes to": "700" });
    await iris.getByRole("button", { name: "Preview the letter" }).click();
    await expect(iris.getByText("it costs more than one person decides alone")).toBeVisible();
    await iris.getByRole("button", { name: "Put it before a second person" }).click();
    await expect(iris.getByText("You proposed it: somebody else looks at it.")).toBeVisible();
    await expect(iris.getByRole("button", { name: /^Approve/ })).toHaveCount(0);
  });

  const jonah = await atDesk("Jonah Quist");
  await test.step("Jonah reads the letter and approves", async () => {
    await jonah.goto(`${claim}#verdict`);
    await expectAccessible(jonah);
    await jonah.getByRole("button", { name: "Approve it and send the letter" }).click();
    await expect(jonah.getByText("Iris Velthuis, approved by Jonah Quist")).toBeVisible();
    await jonah.goto(`${claim}/letter`);
    await expect(jonah.getByText("We send you another unit, at no cost to you.")).toBeVisible();
    await expectPdf(jonah, `${claim}/letter/file`);
  });

  await test.step("the customer finds the complaint again, reads the letter and objects", async () => {
    // As on a device that remembers nothing.
    await customer.context().clearCookies();
    await customer.goto("/claim");
    await say(customer, { Reference: reference, "E-mail address you gave": email });
    await customer.getByRole("button", { name: /^Send/ }).click();
    await expect(customer.getByText("a link to it is on its way there")).toBeVisible();
    const link = /http\S+\/open\?key=\S+/.exec((await mailTo(email, new RegExp(reference), /\/open\?key=/)).text ?? "")?.[0] ?? "";
    await customer.goto(link);
    await customer.getByRole("button", { name: "Open my complaint" }).click();
    await expect(customer.getByText("as a rule by somebody else than the person who decided").first()).toBeVisible();
    await expectPdf(customer, `/claim/${reference}/letter`);
    await say(customer, { "Why do you see it otherwise?": "A workshop has turned the drain already. I want the cost of that." });
    await customer.getByRole("button", { name: "Ask for another look" }).click();
    await expect(customer.getByText("You find your reason among the messages")).toBeVisible();
  });

  await test.step("who decided is kept from answering; the other one answers in a new letter", async () => {
    await iris.goto(`${claim}/verdict`);
    await expect(iris.getByText("You gave the verdict that is objected to")).toBeVisible();
    await jonah.goto(`${claim}/verdict`);
    await chooseKitDrain(jonah, "goodwill");
    await say(jonah, { Reason: "As the invoice says.", "Answer to the objection": "You are right. We meet what the workshop took.", "What it comes to": "120", "Of it we bear": "50" });
    await jonah.getByLabel("We pay for sending the old unit to us").check();
    await jonah.getByRole("button", { name: "Preview the letter" }).click();
    await expect(jonah.getByText("You wrote to us about our last letter:")).toBeVisible();
    await jonah.getByRole("button", { name: "Confirm and send it" }).click();
    await expect(jonah.getByText("The letter is on its way to the customer.")).toBeVisible();
  });

  const borneBefore = await borneByUs(jonah);
  const money = jonah.locator("#settlement");
  await test.step("two kinds are booked and one is reversed, by keyboard alone", async () => {
    await jonah.goto(claim);
    await expect(money.getByText("goodwill €120.00")).toBeVisible();
    // The amount and the share that were promised stand there already.
    await tabTo(jonah, money.getByLabel("Book", { exact: true }));
    await tabTo(jonah, money.getByRole("button", { name: "Book it" }));
    await jonah.keyboard.press("Enter");
    await expect(money.getByRole("heading", { name: "Money so far: we bear €60.00" })).toBeVisible();
    await expect(money.getByLabel("Book", { exact: true })).toHaveValue("carriage_back");
    await tabTo(jonah, money.getByLabel("Amount in"));
    await jonah.keyboard.type("18,40");
    await jonah.keyboard.press("Enter");
    await expect(money.getByRole("heading", { name: "Money so far: we bear €78.40" })).toBeVisible();
    await expect(money.getByRole("row", { name: /^Together/ })).toHaveText(/€138\.40.*€78\.40.*€60\.00/);
    await tabTo(jonah, money.locator("summary", { hasText: "carriage of the old unit" }));
    await jonah.keyboard.press("Enter");
    await tabTo(jonah, money.getByLabel("Why").and(jonah.locator(":visible")));
    await jonah.keyboard.type("The carrier did not charge it.");
    await jonah.keyboard.press("Enter");
    await expect(money.getByRole("heading", { name: "Money so far: we bear €60.00" })).toBeVisible();
    await expect(money.getByText("reversal: carriage of the old unit")).toBeVisible();
    // What was reversed, and its reversal, are reversed no more.
    await expect(money.locator("summary", { hasText: "Reverse" })).toHaveCount(1);
    await expectAccessible(jonah);
  });

  await test.step("the report has grown by what the claim comes to", async () => {
    expect(await borneByUs(jonah)).toBe(borneBefore + 6_000);
  });
  await iris.context().close();
  await jonah.context().close();
});

async function chooseKitDrain(page: Page, remedy: string): Promise<void> {
  const cause = page.getByLabel("Primary cause");
  await cause.selectOption({ label: (await cause.locator("option", { hasText: "Drain runs level" }).textContent()) ?? "" });
  await page.getByLabel("Where it lies").selectOption({ label: "the kit\u2019s own parts or drawing" });
  await page.getByLabel("What is done").selectOption(remedy);
  await page.locator("summary", { hasText: "Sums, shares, deposit" }).click();
}

/** Fills each field whose label begins so. */
async function say(page: Page, typed: Readonly<Record<string, string>>): Promise<void> {
  for (const [label, words] of Object.entries(typed)) await page.getByLabel(new RegExp(`^${label.replace("?", "\\?")}`)).fill(words);
}

async function expectPdf(page: Page, address: string): Promise<void> {
  const file = await page.request.get(address);
  expect(file.headers()["content-type"]).toContain("application/pdf");
  expect((await file.body()).subarray(0, 5).toString()).toBe("%PDF-");
}

/** Reaches a field with the tab key, from where the focus is. */
async function tabTo(page: Page, goal: ReturnType<Page["locator"]>): Promise<void> {
  for (let presses = 0; presses < 150; presses += 1) {
    if (await goal.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error("the tab key does not lead there");
}

/** What the seller bears of all that was booked, in the smallest unit, as the report says. */
async function borneByUs(page: Page): Promise<number> {
  await page.goto("/reports/money");
  const heading = await page.getByRole("heading", { level: 1 }).innerText();
  return Math.round(Number(/€([\d,.]+)/.exec(heading)?.[1]?.replaceAll(",", "") ?? 0) * 100);
}
