import { expect, type Page, test } from "@playwright/test";
import pg from "pg";
import { expectAccessible } from "./pages/axe";
import { soundUnit } from "./pages/demo";
import { keysAct, signIn } from "./pages/desk";
import { reviewedClaim } from "./pages/reviewed-claim";

/** So many keys at most, beside typed text, from the queue to the verdict that stands and on to the next claim. */
const MOST_KEYS = 12;

const A_CLAIM = /\/queue\/[0-9a-f-]{36}(\?|#|$)/;
const NEWEST = "/queue?sort=newest";

test("a complaint is taken down for a caller, found by a word of it, and decided with a dozen keys", async ({ page }, { project }) => {
  const word = `quelster${project.name}`;
  await signIn(page, "support");
  await page.goto("/queue/new");
  await page.getByLabel(/^Order number or serial/).fill((await soundUnit()).serial);
  await page.getByRole("button", { name: "Begin" }).click();
  await page.waitForURL(/\/queue\/new\/[0-9a-f-]{36}/);
  await expectAccessible(page);
  await page.getByLabel(/in your own words/).fill(`Oil in the downpipe since the ${word} pass.`);
  await page.getByLabel("Your name").fill("Runa Terrane");
  await page.getByLabel("Telephone").fill("+00 555 0199");
  for (let rounds = 0; rounds < 8 && !A_CLAIM.test(page.url()); rounds += 1) {
    await answerCall(page);
    const before = await page.getByRole("heading", { level: 1 }).innerText();
    await page.getByRole("button", { name: /^File it/ }).press("Enter");
    await expect.poll(async () => A_CLAIM.test(page.url()) || (await page.getByRole("heading", { level: 1 }).innerText()) !== before).toBe(true);
  }
  await expect(page.getByText("Read out the reference to the caller")).toBeVisible();
  const claim = new URL(page.url()).pathname;

  await test.step("a word of the complaint finds it", async () => {
    await keysAct(page);
    await page.keyboard.press("/");
    await page.waitForURL("**/queue/search");
    await page.getByRole("searchbox").fill(word);
    await page.getByRole("searchbox").press("Enter");
    await expect(page.locator("mark", { hasText: word })).toBeVisible();
    await expect(page.locator(`a[href^="${claim}"]`).first()).toBeVisible();
  });

  await test.step("from the queue to the next claim by the keyboard alone", async () => {
    let keys = 0;
    const press = async (...pressed: readonly string[]) => {
      for (const key of pressed) {
        keys += key.split("+").length;
        await page.keyboard.press(key);
      }
    };
    await page.goto(NEWEST);
    await expect(page.locator("[data-row]").first().getByText("no e-mail address: call")).toBeVisible();
    await keysAct(page);
    await press("j");
    await expect(page.locator(`[data-row] a[href^="${claim}"]`)).toBeFocused();
    await press("Enter");
    await page.waitForURL(A_CLAIM);
    await press("v");
    await page.waitForURL("**/verdict");
    await press("o", "ArrowDown", "Control+Enter");
    await expect(page.getByRole("heading", { name: "This letter goes out" })).toBeFocused();
    await press("c", "Enter");
    await page.waitForURL(/done=decided/);
    await expect(page.getByRole("heading", { level: 1 })).toContainText("Decided: ");
    await press("n");
    await page.waitForURL((url) => A_CLAIM.test(url.href) && url.pathname !== claim);
    expect(keys).toBeLessThanOrEqual(MOST_KEYS);
  });
});

test("two of the desk on one claim see each other, the second to take it is told, and it goes over with a word", async ({ browser }, { project }) => {
  const { id, reference } = await reviewedClaim(`two.${project.name}@example.org`, `TWO-${project.name}`);
  const [iris, jonah] = await Promise.all(
    ["Iris Velthuis", "Jonah Quist"].map(async (name) => {
      const page = await (await browser.newContext({ viewport: project.use.viewport ?? null })).newPage();
      await signIn(page, "support", name);
      return page;
    }),
  );
  if (!iris || !jonah) throw new Error("two people are needed");
  await iris.goto(`/queue/${id}`);
  await expect(iris.getByRole("heading", { name: "In nobody\u2019s hand" })).toBeVisible();
  await jonah.goto(`/queue/${id}`);
  await expect(jonah.getByText("Iris Velthuis has this claim open too.")).toBeVisible();
  await jonah.goto(NEWEST);
  await expect(jonah.locator("[data-row]", { hasText: reference }).getByText("open at Iris Velthuis")).toBeVisible();
  await jonah.goto(`/queue/${id}`);

  await keysAct(iris);
  await iris.keyboard.press("h");
  await expect(iris.getByRole("button", { name: /^Take it/ })).toBeFocused();
  await iris.keyboard.press("Enter");
  await expect(iris.getByRole("heading", { name: "In hand of you" })).toBeVisible();
  await jonah.getByRole("button", { name: /^Take it/ }).click();
  await expect(jonah.getByRole("alert").filter({ hasText: "Somebody else took it meanwhile" })).toBeVisible();

  await iris.getByLabel("Hand over to").selectOption("Jonah Quist");
  await iris.getByLabel("A word to the next person").fill("He rings back at five.");
  await iris.getByRole("button", { name: "Hand over" }).click();
  await expect(iris.getByRole("heading", { name: "In hand of Jonah Quist" })).toBeVisible();
  await jonah.goto(`${NEWEST}&who=mine`);
  await expect(jonah.locator("[data-row]", { hasText: reference }).getByText("He rings back at five.")).toBeVisible();
  await Promise.all([iris, jonah].map((page) => page.context().close()));
});

test("what was typed stays where the session has ended, and goes once somebody has signed in again", async ({ page, context }, { project }) => {
  const { id } = await reviewedClaim(`out.${project.name}@example.org`, `OUT-${project.name}`);
  const words = `The clamp of ${project.name} is on its way.`;
  await signIn(page, "support");
  await page.goto(`/queue/${id}`);
  await page.getByLabel("Message to the customer").fill(words);
  await context.clearCookies();
  await page.getByRole("button", { name: "Send the message" }).click();
  await expect(page.getByRole("alert").filter({ hasText: "You have been signed out meanwhile" })).toBeVisible();
  await expect(page.getByLabel("Message to the customer")).toHaveValue(words);
  await signIn(await context.newPage(), "support");
  await page.getByRole("button", { name: "Send the message" }).click();
  await expect(page.locator("#messages").getByText(words)).toBeVisible();
});

test("claims with one serial name each other in the queue, and are taken together", async ({ page }, { project }) => {
  const serial = `SAME-${project.name}`;
  const claims = [await reviewedClaim(`a.${project.name}@example.org`, serial), await reviewedClaim(`b.${project.name}@example.org`, serial)];
  await signIn(page, "support");
  await page.goto(NEWEST);
  await keysAct(page);
  for (const [at, { reference }] of claims.entries()) {
    const row = page.locator("[data-row]", { has: page.getByRole("link", { name: reference, exact: true }) });
    await expect(row.getByText(`same serial as ${claims[1 - at]?.reference}`)).toBeVisible();
    await row.getByRole("link", { name: reference, exact: true }).focus();
    await page.keyboard.press("x");
    await expect(row.getByRole("checkbox")).toBeChecked();
  }
  await page.getByRole("button", { name: "See what it does first" }).click();
  await page.getByRole("button", { name: /^Take 2 claims/ }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("2 claims in your hand now");
  await page.goto(`${NEWEST}&who=mine`);
  for (const { reference } of claims) await expect(page.getByRole("link", { name: reference, exact: true })).toBeVisible();
});

test("a photo comes nearer by keys and by the wheel, and is marked with a word", async ({ page }, { project }) => {
  const word = `sharp bend ${project.name}`;
  await signIn(page, "support");
  await page.goto(await aPhotoToLookAt());
  const zoom = page.getByRole("status").filter({ hasText: "%" });
  await expect(zoom).toHaveText("100 %");
  const width = async () => (await page.getByRole("img", { name: /^(No marks|Marks:)/ }).boundingBox())?.width ?? 0;
  const whole = await width();
  await keysAct(page);
  await page.keyboard.press("+");
  await page.keyboard.press("+");
  await expect(zoom).toHaveText("156 %");
  expect(await width()).toBeGreaterThan(whole * 1.5);
  await page.keyboard.press("0");
  await page.getByRole("region", { name: /^The photo/ }).hover();
  await page.mouse.wheel(0, -100);
  await expect(zoom).toHaveText("125 %");
  await page.keyboard.press("m");
  await page.keyboard.type(word);
  await page.getByLabel("From the left, %").fill("40");
  await page.getByLabel("From the top, %").fill("55");
  await page.getByRole("button", { name: "Mark it" }).click();
  await expect(page.getByText(word).first()).toBeVisible();
});

/** What a caller has not looked at is not known; the drain runs level, and of what has no such answer the first holds. */
async function answerCall(page: Page): Promise<void> {
  for (const group of await page.locator("main form fieldset").all()) {
    if (!(await group.isVisible()) || (await group.getByRole("radio", { checked: true }).count()) > 0) continue;
    const choices = group.locator("label:visible");
    const told = choices.filter({ hasText: /^It runs level/ });
    const unknown = choices.filter({ hasText: /^I (don\u2019t know|have not looked)/ });
    await ((await told.count()) > 0 ? told : (await unknown.count()) > 0 ? unknown : choices).first().click();
  }
}

async function aPhotoToLookAt(): Promise<string> {
  const client = new pg.Client({ connectionString: process.env.E2E_DATABASE_URL });
  await client.connect();
  try {
    const { rows } = await client.query<{ address: string }>(`select '/queue/' || c.id || '/look/' || p.id as address from photo p join claim c on c.id = p.claim_id where c.stage in ('in_review', 'filed') order by p.created_at desc, p.id limit 1`);
    if (!rows[0]) throw new Error("the demo has no photo at the desk");
    return rows[0].address;
  } finally {
    await client.end();
  }
}
