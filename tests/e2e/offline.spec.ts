import { expect, type Page, test } from "@playwright/test";
import pg from "pg";
import sharp from "sharp";
import { answerScreen, type Complaint, goOn, screenOf } from "./pages/intake";

/** The worker stands by and has its page. */
async function standsBy(page: Page): Promise<void> {
  const hasPage = async () => {
    if (!navigator.serviceWorker.controller) return false;
    for (const name of await caches.keys()) if (await (await caches.open(name)).match("/intake/offline", { ignoreVary: true })) return true;
    return false;
  };
  await expect.poll(() => page.evaluate(hasPage)).toBe(true);
  // What is fetched only when it is needed follows.
  await page.waitForLoadState("networkidle");
}

async function answerUpTo(page: Page, last: string, complaint: Complaint): Promise<void> {
  while (screenOf(page) !== last) {
    await answerScreen(page, screenOf(page), complaint);
    await goOn(page);
  }
}

async function claimsOf(email: string): Promise<{ stage: string; photos: number }[]> {
  const client = new pg.Client({ connectionString: process.env.E2E_DATABASE_URL });
  await client.connect();
  try {
    const { rows } = await client.query<{ stage: string; photos: number }>(
      "select c.stage::text, (select count(*)::int from photo p where p.claim_id = c.id) as photos from claim c where c.contact_email = $1",
      [email],
    );
    return rows;
  } finally {
    await client.end();
  }
}

test("the signal goes in the middle of filing: the rest is answered on the device, and it is filed once the signal is back", async ({ page, context }, { project }) => {
  const email = `cut.${project.name}@example.org`;
  await page.goto("/intake");
  await answerUpTo(page, "oil", {});
  await standsBy(page);

  await context.setOffline(true);
  await answerScreen(page, "oil", {});
  await page.getByRole("button", { name: "Continue" }).click();
  await expect(page.getByRole("alert").filter({ hasText: "Not saved yet" })).toBeFocused();
  await page.getByRole("link", { name: "Go on without a signal" }).click();
  await page.waitForURL(/offline#?/);
  await expect(page.getByText("No signal: your answers are kept on this device")).toBeVisible();
  await expect(page.getByRole("heading", { level: 1 })).not.toHaveText("Where do you see oil?");
  await answerRest(page, { email });
  await page.locator("main").getByRole("button", { name: "Send my complaint" }).click();
  await expect(page.getByRole("heading", { name: "Your complaint waits on this device" })).toBeVisible();
  expect(await claimsOf(email)).toEqual([]);

  await context.setOffline(false);
  await expect(page.getByText("Your complaint has reached us")).toBeVisible();
  expect(await claimsOf(email)).toHaveLength(1);
  await page.getByRole("link", { name: /^Open complaint/ }).click();
  await page.waitForURL(/\/claim\//);
  expect(await page.evaluate(() => localStorage.getItem("fit-or-fault.waits"))).toBeNull();
});

test("begun and filed without a signal, with a photo, and the browser closed: it goes once, from whatever windows are open then", async ({ page, context }, { project }) => {
  const email = `offline.${project.name}@example.org`;
  await page.goto("/intake");
  await standsBy(page);
  await context.setOffline(true);
  await page.goto("/intake/who");
  await page.waitForURL(/offline/);
  await expect(page.getByRole("heading", { name: "Who are you?" })).toBeVisible();
  const buffer = await sharp({ create: { width: 500, height: 400, channels: 3, background: "#753" } }).jpeg().toBuffer();
  await answerRest(page, { email }, { name: "drain.jpg", mimeType: "image/jpeg", buffer });
  await page.locator("main").getByRole("button", { name: "Send my complaint" }).click();
  await expect(page.getByRole("heading", { name: "Your complaint waits on this device" })).toBeVisible();

  await test.step("nothing that was typed is in the copy of the pages", async () => {
    const copies = await page.evaluate(async () => {
      const texts: string[] = [];
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) texts.push((await (await cache.match(request, { ignoreVary: true }))?.text()) ?? "");
      }
      return texts;
    });
    expect(copies.length).toBeGreaterThan(3);
    expect(copies.filter((text) => text.includes(email))).toEqual([]);
  });

  await page.close();
  await context.setOffline(false);
  const [one, other] = [await context.newPage(), await context.newPage()];
  await Promise.all([one.goto("/"), other.goto("/intake/offline")]);
  const isTold = (window: Page) => window.getByText("Your complaint has reached us").isVisible();
  await expect.poll(async () => (await isTold(one)) || (await isTold(other))).toBe(true);
  await expect.poll(() => claimsOf(email)).toEqual([{ stage: "filed", photos: 1 }]);
});

/** From the screen that is shown to the review, each screen by its name behind the hash. */
async function answerRest(page: Page, complaint: Complaint, photo?: { name: string; mimeType: string; buffer: Buffer }): Promise<void> {
  for (let screens = 0; screens < 30; screens += 1) {
    await expect(page.locator("#screen, .foot").first()).toBeVisible();
    const heading = await page.getByRole("heading", { level: 1 }).textContent();
    if (heading?.startsWith("Check what you tell us")) return;
    const screen = screenOf(page);
    await answerScreen(page, screen, complaint);
    if (screen === "pictures" && photo) {
      await page.locator('input[type="file"][multiple]').setInputFiles(photo);
      await expect(page.getByText("waits for a signal")).toBeVisible();
    }
    await page.getByRole("button", { name: "Continue" }).click();
    await expect(page.getByRole("heading", { level: 1 })).not.toHaveText(heading ?? "");
  }
  throw new Error("the intake does not end");
}

test("a complaint that a check put right leaves nothing of it on the device", async ({ page }) => {
  /** What the device keeps of a complaint, and of photos on their way. */
  const kept = () =>
    page.evaluate(async () => {
      const opened = indexedDB.open("fit-or-fault");
      await new Promise((resolve) => (opened.onsuccess = resolve));
      const asked = opened.result.transaction("kept").objectStore("kept").getAllKeys();
      await new Promise((resolve) => (asked.onsuccess = resolve));
      opened.result.close();
      return asked.result;
    });
  await page.goto("/intake");
  while (!(await page.getByRole("link", { name: "What you can check now" }).isVisible())) {
    await answerScreen(page, screenOf(page), {});
    await goOn(page);
  }
  await expect.poll(kept).toEqual(["complaint"]);
  await page.getByRole("link", { name: "What you can check now" }).click();
  await page.getByText("This put it right", { exact: true }).first().click();
  await page.getByRole("button", { name: "Yes, this put it right" }).first().click();
  await page.waitForURL(/\/intake\/cleared$/);
  await expect.poll(kept).toEqual([]);
});
