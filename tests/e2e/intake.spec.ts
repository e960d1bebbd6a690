import { expect, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { answerIntake, answerScreen, fileClaim, goOn, screenOf, tellCheck } from "./pages/intake";

test("an owner files in at most 14 questions, gets a reference and first advice, and every page passes axe", async ({ page }) => {
  await page.goto("/");
  await expectAccessible(page);
  const screens = await answerIntake(page, { drain: "It runs level, rises or sags somewhere", vent: "Into a catch can" });
  expect(screens).toBeLessThanOrEqual(14);
  await expectAccessible(page);

  await test.step("what is free to check is told on the way, and one of it done", async () => {
    await page.getByRole("link", { name: "What you can check now" }).click();
    await expect(page.getByRole("heading", { level: 1, name: "What you can check now" })).toBeVisible();
    const checks = page.locator("main ol > li");
    const advised = await checks.count();
    const first = checks.first();
    const code = await first.getAttribute("id");
    for (const fold of await first.locator("details details > summary").all()) await fold.click();
    await expectAccessible(page);
    await tellCheck(first);
    await expect(page.locator("main dl > div")).toHaveCount(1);
    await expect(page.locator(`[id="${code}"]`)).toHaveCount(0);
    expect(await checks.count()).toBeLessThanOrEqual(advised);
    await page.getByRole("link", { name: "Go on with the questions" }).last().click();
    await page.waitForURL(/\/intake\/review$/);
  });
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

test("the page of a complaint that a check has ended is sound", async ({ page }) => {
  await page.goto("/intake/cleared");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("Good: a check put it right");
  await expectAccessible(page);
});

test("oil in the air side of a diesel says at once to leave the engine off", async ({ page }) => {
  await fileClaim(page, { oil: "In the air side" });
  await expect(page.locator(".caution").first()).toContainText(/run|start/i);
});

test("whoever has one kit of a compound pair says that both leak, and is read back both", async ({ page }) => {
  await answerIntake(page, { kit: "KH-820", bothOfPair: "VT66L-PAIR-7", oil: "In the air side" });
  await expect(page.locator("dl > div", { hasText: "Which of the two turbos leaks?" }).getByText("Both", { exact: true })).toBeVisible();
  await expect(page.getByText("VT66L-PAIR-7")).toBeVisible();
  await page.getByRole("button", { name: /^Send/ }).click();
  await page.waitForURL(/\/claim\/[2-9A-Z]/);
  await expect(page.locator("dl", { hasText: "Of the two turbos" }).getByText("Both", { exact: true })).toBeVisible();
  await expect(page.getByText("Single or two-stage set")).toHaveCount(0);
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
  await page.clock.install({ time: Date.now() + 15 * 86_400_000 });
  await page.reload();
  await expect(message).toHaveValue("");
  await page.clock.setSystemTime(Date.now());
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

  test("a free check is told and puts it right before anything is filed: nothing of it is kept", async ({ page }) => {
    await page.goto("/intake");
    while (!(await page.getByRole("link", { name: "What you can check now" }).isVisible())) {
      await answerScreen(page, screenOf(page), {});
      await goOn(page);
    }
    await page.getByRole("link", { name: "What you can check now" }).click();
    const first = page.locator("main ol > li").first();
    await first.getByText("I did this, here is what I found").click();
    await tellCheck(first);
    await expect(page.locator("main dl > div")).toHaveCount(1);
    const putRight = page.locator("main ol > li").filter({ hasText: "This put it right" }).first();
    if ((await putRight.locator("> details[open]").count()) === 0) await putRight.locator("> details > summary").click();
    await putRight.getByText("This put it right", { exact: true }).click();
    await putRight.getByRole("button", { name: "Yes, this put it right" }).click();
    await page.waitForURL(/\/intake\/cleared$/);
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Good: a check put it right");
    await page.goto("/intake/review");
    await page.waitForURL(/\/intake\/who$/);
    await expect(page.getByRole("radio", { checked: true })).toHaveCount(0);
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
