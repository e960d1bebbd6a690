import { expect, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { answerIntake, fileClaim, goOn } from "./pages/intake";

test("an owner files in at most 14 questions, gets a reference and first advice, and every page passes axe", async ({ page }) => {
  await page.goto("/");
  await expectAccessible(page);
  const screens = await answerIntake(page, { drain: "It runs level, rises or sags somewhere", vent: "Into a catch can" });
  expect(screens).toBeLessThanOrEqual(16);
  await expectAccessible(page);
  await page.getByRole("button", { name: /^Send/ }).click();
  await page.waitForURL(/\/claim\//);
  await expect(page.getByText(/drain/i).first()).toBeVisible();
  await expectAccessible(page);

  await test.step("going back does not file again", async () => {
    const receipt = page.url();
    await page.goBack();
    await page.goto("/intake/review");
    expect(page.url().startsWith(receipt.slice(0, receipt.indexOf("?") + 1 || undefined)) || page.url().includes("/intake")).toBe(true);
  });
});

test("oil in the air side of a diesel says at once to leave the engine off", async ({ page }) => {
  await fileClaim(page, { oil: "In the air side" });
  await expect(page.locator(".caution").first()).toContainText(/run|start/i);
});

test("what is wrong is said at the field, and what was typed stays", async ({ page }) => {
  await page.goto("/intake/who");
  await page.getByRole("button", { name: "Continue" }).click();
  await expect(page.getByRole("alert").filter({ hasText: "Choose who you are" })).toBeFocused();
  await expect(page).toHaveTitle(/^Error:/);

  await page.locator("label", { hasText: "I own the vehicle" }).click();
  await goOn(page);
  await page.locator("label", { hasText: "Serial number on the unit" }).click();
  await goOn(page);
  await page.getByLabel("Serial number").fill("NO-SUCH-UNIT 🙂");
  await page.getByRole("button", { name: "Continue" }).click();
  await expect(page.getByRole("alert").first()).toBeVisible();
  await expect(page.getByLabel("Serial number")).toHaveValue("NO-SUCH-UNIT 🙂");
});

test("an unknown serial number does not hold anybody up: they go on and pick the kit", async ({ page }) => {
  await page.goto("/intake/who");
  await page.locator("label", { hasText: "I own the vehicle" }).click();
  await goOn(page);
  await page.locator("label", { hasText: "Serial number on the unit" }).click();
  await goOn(page);
  await page.getByLabel("Serial number").fill("NO-SUCH-UNIT");
  await page.getByRole("button", { name: "Continue" }).click();
  await page.getByRole("button", { name: "Go on and pick the kit" }).click();
  await page.waitForURL(/\/intake\/kit$/);
});

test("a message written without a signal is told, kept over a reload, and sent later once", async ({ page, context }) => {
  await fileClaim(page);
  const message = page.getByLabel("Your message");
  await message.fill("Still dripping 😢");
  await context.setOffline(true);
  await page.getByRole("button", { name: "Send", exact: true }).click();
  await expect(page.getByRole("alert").filter({ hasText: "Not sent yet" })).toBeFocused();
  await expect(message).toHaveValue("Still dripping 😢");

  await context.setOffline(false);
  await page.reload();
  await expect(message).toHaveValue("Still dripping 😢");
  await page.getByRole("button", { name: "Send", exact: true }).click();
  await expect(page.getByText("Your message is sent.")).toBeVisible();
  await expect(message).toHaveValue("");
  await page.reload();
  await expect(message).toHaveValue("");
  await expect(page.locator("#messages li")).toHaveCount(1);
});

test("a draft is resumed in the same browser where it was left", async ({ page }) => {
  await page.goto("/intake/who");
  await page.locator("label", { hasText: "I work on vehicles" }).click();
  await goOn(page);
  await page.goto("/");
  await page.goto("/intake");
  expect(new URL(page.url()).pathname).toBe("/intake/purchase");
  await page.goto("/intake/who");
  await expect(page.getByRole("radio", { name: /I work on vehicles/ })).toBeChecked();
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("a claim can be filed and read", async ({ page }) => {
    const reference = await fileClaim(page, { drain: "It runs level, rises or sags somewhere" });
    expect(reference).toMatch(/^[2-9A-Z-]{12}$/);
    await expect(page.getByText(reference).first()).toBeVisible();
  });

  test("a refused screen comes back filled in", async ({ page }) => {
    await page.goto("/intake/who");
    await page.getByRole("button", { name: "Continue" }).click();
    await expect(page.locator(".error").first()).toHaveText("Choose who you are");
  });
});

test("a PDF that calls itself a photo is refused in words, and the rest goes on", async ({ page, context, baseURL }) => {
  await page.goto("/intake/who");
  await page.locator("label", { hasText: "I own the vehicle" }).click();
  await goOn(page);
  const send = (name: string, buffer: Buffer) =>
    context.request.post(`${baseURL}/intake/photos`, { headers: { origin: baseURL ?? "", accept: "application/json" }, multipart: { photo: { name, mimeType: "image/jpeg", buffer } }, maxRedirects: 0 });
  const pdf = await send("drain.jpg", Buffer.from("%PDF-1.7\n1 0 obj\n<<>>\nendobj\n"));
  expect(pdf.status()).toBe(415);
  const empty = await send("drain.jpg", Buffer.alloc(0));
  expect([400, 415]).toContain(empty.status());
  const tooBig = await send("drain.jpg", Buffer.alloc(40 * 1024 * 1024, 1));
  expect(tooBig.status()).toBe(413);
});
