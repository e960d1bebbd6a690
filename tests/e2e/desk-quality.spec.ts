import { expect, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { signIn } from "./pages/desk";

test("a product manager reads how the desk works, opens a figure's claims and writes to a supplier", async ({ page, baseURL }) => {
  await signIn(page, "product");
  await page.goto("/reports/desk");
  await expect(page.getByRole("heading", { level: 1 })).toContainText("first answer");
  await expectAccessible(page);
  const late = page.getByRole("link", { name: /late$/ });
  const counted = (await late.textContent())?.replace(/\D/g, "") ?? "";
  await late.click();
  await expect(page.getByRole("heading", { level: 1 })).toContainText(/answered late/);
  expect((await page.getByRole("heading", { level: 1 }).textContent())?.replace(/\D/g, "")).toBe(counted);
  await expectAccessible(page);

  await page.goto("/reports/supplier?kit=KH-210");
  await expect(page.getByRole("heading", { level: 1 })).toContainText("What a supplier would be told");
  await expectAccessible(page);
  await page.getByLabel("What is asked of the supplier").fill("Tell us how the drain fittings are gauged.");
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Write the PDF" }).click()]);
  expect(download.suggestedFilename()).toMatch(/^supplier-summary-KH-210-.*\.pdf$/);

  const post = (form: Record<string, string>) => page.request.post("/api/reports/supplier", { headers: { origin: baseURL ?? "" }, form });
  expect((await post({ kit: "KH-210", paper: "A3", ask: "x" })).status()).toBe(400);
  expect((await post({ paper: "A4", ask: "x" })).status()).toBe(400);
});

test("support gives a second opinion without having seen the verdict", async ({ page, browser }) => {
  // With the usual share it is left to chance whether a claim waits.
  const administrator = await browser.newPage();
  await signIn(administrator, "admin");
  await administrator.goto("/settings");
  await administrator.getByLabel("Claims for a second opinion, per cent").fill("100");
  await administrator.getByRole("button", { name: "Keep these settings" }).click();
  await expect(administrator.getByRole("status")).toBeVisible();
  await administrator.close();

  await signIn(page, "support");
  await page.goto("/queue/second-opinions");
  await expectAccessible(page);
  const waiting = page.getByRole("table").getByRole("link").first();
  await waiting.click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("What do you make of this?");
  await expect(page.getByText("The verdict that stands")).toHaveCount(0);
  await expectAccessible(page);
});
