import { expect, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { mailTo, soundUnit } from "./pages/demo";
import { openClaim, signIn } from "./pages/desk";
import { fileClaim } from "./pages/intake";

test("a complaint travels from a customer's phone to a verdict and into the report", async ({ browser, page: customer }, { project }) => {
  const email = `runa.${project.name}@example.org`;
  const { serial, kitCode } = await soundUnit();
  let reference = "";

  await test.step("the customer files, and is told what is free to check", async () => {
    reference = await fileClaim(customer, {
      serial,
      oil: "In the exhaust side",
      drain: "It runs level, rises or sags somewhere",
      vent: "Into the intake, ahead of the compressor",
      words: "Oil in the downpipe after 40 km. The drain hose lies nearly flat over the bracket.",
      email,
    });
    await expect(customer.getByText(/drain/i).first()).toBeVisible();
  });

  await test.step("a mailed link opens the claim on another device, once", async () => {
    const link = /http\S+\/open\?key=\S+/.exec((await mailTo(email, new RegExp(`^Your complaint ${reference}`))).text ?? "")?.[0] ?? "";
    const device = await browser.newContext();
    const other = await device.newPage();
    await other.goto(link);
    await other.getByRole("button", { name: /open/i }).click();
    await other.waitForURL(new RegExp(`/claim/${reference}$`));
    await expect(other.getByText(reference).first()).toBeVisible();
    await other.goto(link);
    expect(new URL(other.url()).pathname, "a browser that remembers it").toBe(`/claim/${reference}`);
    await device.close();
    const late = await (await browser.newContext()).newPage();
    await late.goto(link);
    await late.getByRole("button", { name: /open/i }).click();
    await expect(late.getByText(reference, { exact: true })).toHaveCount(0);
    await late.context().close();
  });

  const desk = await browser.newContext({ viewport: project.use.viewport ?? null });
  const support = await desk.newPage();
  await test.step("support sees the drain lead, and asks for the best check", async () => {
    await signIn(support, "support");
    await expectAccessible(support);
    await openClaim(support, reference);
    await expect(support.getByRole("heading", { level: 1 })).toContainText(/drain/i);
    await expectAccessible(support);
    await support.locator("#checks").getByRole("button", { name: /^ask/ }).first().click();
    await expect(support.getByText("One check is asked for")).toBeVisible();
  });

  await test.step("the customer answers on the private page, and the claim is back in review", async () => {
    await mailTo(email, /^One question about/);
    await customer.goto(`/claim/${reference}`);
    await expect(customer.getByRole("heading", { level: 1 })).toHaveText(/one answer/i);
    const asked = customer.locator("section", { has: customer.getByRole("heading", { name: /Please look at this/ }) }).first();
    const number = asked.locator('input[inputmode="decimal"]');
    if ((await number.count()) > 0) await number.fill("16,5");
    else await asked.locator("label").first().click();
    await asked.getByRole("button", { name: "Send my answer" }).click();
    await expect(customer.getByText("Your answer is in.")).toBeVisible();
    await support.reload();
    await expect(support.getByText("in review").first()).toBeVisible();
  });

  await test.step("support confirms; of two at once the second is told and loses nothing", async () => {
    const verdictAddress = `${new URL(support.url()).pathname}/verdict`;
    await support.goto(verdictAddress);
    const colleague = await (await browser.newContext()).newPage();
    await signIn(colleague, "admin");
    await colleague.goto(verdictAddress);
    for (const page of [support, colleague]) {
      await page.getByLabel("Where it lies").selectOption("the way it was fitted");
      await page.getByLabel("What is done").selectOption("advice alone");
      await page.getByLabel("Reason").fill("The photo and the words agree.");
      await page.getByRole("button", { name: "Preview the letter" }).click();
      await expect(page.getByText("This letter goes out")).toBeVisible();
    }
    await support.getByLabel("What is done").selectOption("goodwill");
    await support.getByRole("button", { name: "Confirm and send it" }).click();
    await expect(support.getByRole("alert").filter({ hasText: "Nothing was sent" })).toBeVisible();
    await expect(support.getByText("as a courtesy")).toBeVisible();
    await support.getByRole("button", { name: "Confirm and send it" }).click();
    await support.waitForURL((url) => !url.pathname.endsWith("/verdict"));
    await colleague.getByRole("button", { name: "Confirm and send it" }).click();
    await expect(colleague.getByRole("alert").filter({ hasText: /Iris Velthuis|decided/ }).first()).toBeVisible();
    await expect(colleague.getByLabel("Reason")).toHaveValue("The photo and the words agree.");
    await colleague.context().close();
    await expect(support.getByText("decided").first()).toBeVisible();
  });

  await test.step("the customer reads the letter, on the page and by mail", async () => {
    await customer.goto(`/claim/${reference}`);
    await expect(customer.getByRole("heading", { name: "Our letter" })).toBeVisible();
    expect((await mailTo(email, /^Our answer to/)).text).toMatch(/drain/i);
    await expectAccessible(customer);
  });

  await test.step("the product manager finds it behind the figure of its kit", async () => {
    const product = await (await browser.newContext({ viewport: project.use.viewport ?? null })).newPage();
    await signIn(product, "product");
    await expect(product.getByRole("heading", { level: 1 })).toBeVisible();
    await expectAccessible(product);
    await product.getByRole("rowheader").getByRole("link", { name: kitCode, exact: true }).first().click();
    await product.getByRole("definition").getByRole("link").first().click();
    await product.waitForURL(/\/reports\/causes\/claims/);
    const behind = product.getByRole("link", { name: reference });
    await expect(behind).toBeVisible();
    await behind.click();
    // Codes and causes, but nothing of the person.
    await expect(product.getByText(reference).first()).toBeVisible();
    await expect(product.getByText(email)).toHaveCount(0);
    await expect(product.getByText("Runa Terrane")).toHaveCount(0);
    await product.context().close();
  });
  await desk.close();
});
