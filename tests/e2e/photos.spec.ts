import { type BrowserContext, expect, type Page, test } from "@playwright/test";
import sharp from "sharp";
import { answerScreen, goOn, screenOf } from "./pages/intake";

const PIECES = "**/photos/uploads/**";

/** A photo with enough in it to take several pieces. */
async function aPhoto(turn = 0): Promise<{ name: string; mimeType: string; buffer: Buffer }> {
  const [width, height] = [1400, 1000];
  const noise = Buffer.from(Uint8Array.from({ length: width * height * 3 }, (_, at) => (at * (7919 + turn) + ((at * at) % 251)) % 256));
  return { name: `drain-${turn}.jpg`, mimeType: "image/jpeg", buffer: await sharp(noise, { raw: { width, height, channels: 3 } }).jpeg({ quality: 80 }).toBuffer() };
}

/** Answers up to the photos. */
async function upToThePhotos(page: Page): Promise<void> {
  await page.goto("/intake");
  while (screenOf(page) !== "pictures") {
    await answerScreen(page, screenOf(page), {});
    await goOn(page);
  }
}

async function choose(page: Page, files: Parameters<Page["setInputFiles"]>[1]): Promise<void> {
  await expect(page.getByRole("button", { name: "Choose photos" })).toBeVisible();
  await page.locator('input[type="file"][multiple]').setInputFiles(files);
}

const attached = (page: Page) => page.locator('main img[src*="/photos/"]');

/** Lets so many pieces through, and no more until `open` is called. Counts what was sent of the beginning. */
async function holdPieces(context: BrowserContext, letThrough: number) {
  const held = { passed: 0, begun: 0, isOpen: false };
  await context.route(PIECES, async (route) => {
    if (route.request().method() === "PUT" && !held.isOpen && held.passed >= letThrough) return route.abort("internetdisconnected");
    if (route.request().method() === "PUT") {
      held.passed += 1;
      if (new URL(route.request().url()).searchParams.get("begin") === "0") held.begun += 1;
    }
    await route.continue();
  });
  return held;
}

test("several photos go at once in the background, each is seen when it has arrived", async ({ page }) => {
  await upToThePhotos(page);
  await choose(page, [await aPhoto(1), await aPhoto(2), await aPhoto(3)]);
  await expect(attached(page)).toHaveCount(3);
});

test("a photo is not sent twice to its owner, and is gone from a device whose key is gone", async ({ page, context }) => {
  await upToThePhotos(page);
  await choose(page, await aPhoto(1));
  const address = new URL((await attached(page).getAttribute("src")) ?? "", page.url()).toString();
  const shown = await page.request.get(address);
  expect(shown.headers()["cache-control"]).toBe("private, no-cache");
  const again = { headers: { "if-none-match": shown.headers().etag ?? "" } };
  expect((await page.request.get(address, again)).status()).toBe(304);
  await context.clearCookies();
  expect((await page.request.get(address, again)).status()).toBe(404);
});

test("a photo goes on where it was after a lost signal, and what has arrived is not sent again", async ({ page, context }) => {
  const held = await holdPieces(context, 1);
  await upToThePhotos(page);
  await choose(page, await aPhoto());
  await expect(page.getByText("waits for a signal")).toBeVisible();
  held.isOpen = true;
  await page.getByRole("button", { name: /^Try again/ }).click();
  await expect(attached(page)).toHaveCount(1);
  expect(held.passed).toBeGreaterThan(1);
  expect(held.begun).toBe(1);
});

test("a photo outlives its tab, and goes on by itself in the next", async ({ page, context }) => {
  const held = await holdPieces(context, 1);
  await upToThePhotos(page);
  await choose(page, await aPhoto());
  await expect(page.getByText("waits for a signal")).toBeVisible();
  await page.close();
  held.isOpen = true;
  const next = await context.newPage();
  await next.goto("/intake/pictures");
  await expect(attached(next)).toHaveCount(1);
  expect(held.begun).toBe(1);
});

test("a complaint is sent with a photo on its way, which arrives afterwards", async ({ page, context }) => {
  const held = await holdPieces(context, 0);
  await upToThePhotos(page);
  await choose(page, await aPhoto());
  await expect(page.getByText("waits for a signal")).toBeVisible();
  while (screenOf(page) !== "review") {
    await goOn(page);
    if (screenOf(page) !== "review") await answerScreen(page, screenOf(page), {});
  }
  await page.getByRole("button", { name: /^Send/ }).click();
  await page.waitForURL(/\/claim\//);
  await expect(attached(page)).toHaveCount(0);
  held.isOpen = true;
  await expect(attached(page)).toHaveCount(1);
});

test("each bad photo is refused in words of its own, and the good one among them arrives", async ({ page }) => {
  await upToThePhotos(page);
  await choose(page, [{ name: "empty.jpg", mimeType: "image/jpeg", buffer: Buffer.alloc(0) }, { name: "letter.jpg", mimeType: "image/jpeg", buffer: Buffer.from("%PDF-1.7\n1 0 obj\n<<>>\nendobj\n") }, await aPhoto()]);
  await expect(page.getByText("The photo is empty")).toBeVisible();
  await expect(page.getByText("This is not a photo we can read")).toBeVisible();
  await expect(attached(page)).toHaveCount(1);
  for (const name of ["empty.jpg", "letter.jpg"]) await page.getByRole("button", { name: new RegExp(`^Leave out ?: ${name}$`) }).click();
  await choose(page, await Promise.all(Array.from({ length: 12 }, (_, at) => sharp({ create: { width: 40 + at, height: 40, channels: 3, background: "#888" } }).jpeg().toBuffer()))
    .then((photos) => photos.map((buffer, at) => ({ name: `${at}.jpg`, mimeType: "image/jpeg", buffer }))));
  await expect(page.getByText("A complaint takes 12 photos")).toHaveCount(1);
  await expect(attached(page)).toHaveCount(12);
});

test("a photo is shrunk on the device, stands upright and tells neither place nor camera", async ({ page, context, baseURL }) => {
  await upToThePhotos(page);
  const buffer = await sharp({ create: { width: 3200, height: 1600, channels: 3, background: "#a60", noise: { type: "gaussian", mean: 128, sigma: 20 } } })
    .withExif({ IFD0: { Make: "Camera", Orientation: "6" }, IFD3: { GPSLatitude: "52/1 31/1 0/1" } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
  const sent = page.waitForRequest((request) => request.method() === "PUT");
  await choose(page, { name: "turned.jpg", mimeType: "image/jpeg", buffer });
  expect(Number(new URL((await sent).url()).searchParams.get("bytes"))).toBeLessThan(buffer.length / 2);
  const source = await attached(page).first().getAttribute("src");
  const kept = await context.request.get(`${baseURL}${(source ?? "").split("?")[0]}`);
  const { width, height, exif } = await sharp(await kept.body()).metadata();
  expect([width, height, exif]).toEqual([1000, 2000, undefined]);
});
