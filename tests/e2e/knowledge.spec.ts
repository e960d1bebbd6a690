import { expect, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { signIn } from "./pages/desk";

test.describe("the knowledge", () => {

  test("is read, changed into a new edition, tried on the claims and put in force", async ({ page }) => {
    await signIn(page, "admin");
    await page.getByRole("link", { name: "Knowledge" }).click();
    await page.getByRole("link", { name: /causes and \d+ findings/ }).click();
    await expectAccessible(page);
    await page.getByRole("searchbox").fill("C09");
    await page.getByRole("button", { name: "Show" }).click();
    await page.getByRole("table").first().getByRole("link", { name: "Oil level too high" }).click();
    await expect(page.getByRole("heading", { level: 1 })).toContainText("tells most");
    await expectAccessible(page);
    await page.getByRole("link", { name: "Oil level", exact: true }).click();
    await expectAccessible(page);

    await page.getByRole("link", { name: "Knowledge" }).click();
    await page.getByRole("button", { name: /^Change edition \d+ into a new one/ }).click();
    await page.getByRole("link", { name: "Oil level too high" }).click();
    await page.getByLabel("Fitted units that have it").fill("-4");
    await page.getByRole("button", { name: "Keep this form" }).click();
    await expect(page.getByText("A base figure lies above 0.")).toBeVisible();
    await expect(page.getByLabel("Fitted units that have it")).toHaveValue("-4");
    await expectAccessible(page);
    await page.getByLabel("Fitted units that have it").fill("40");
    await page.getByLabel("Comes from").selectOption("common practice");
    await page.getByLabel("Source, or a word on it").fill("Counted in the workshop");
    await page.getByRole("button", { name: "Keep this form" }).click();
    await expect(page.getByText("Kept.")).toBeVisible();
    await page.getByRole("link", { name: /^Draft on edition/ }).click();
    await expect(page.getByRole("heading", { level: 1, name: /changes one thing/ })).toBeVisible();
    await expect(page.getByRole("cell", { name: /40 in 1,000/ })).toBeVisible();
    await expectAccessible(page);
    await page.getByLabel("Name of the edition").fill("Levels counted");
    await page.getByLabel("What it is for").fill("Oil levels are too high more often than thought");
    await page.getByRole("button", { name: "Propose the edition" }).click();
    await expect(page.getByText("It ranks nothing until it is put in force")).toBeVisible();
    const edition = new URL(page.url()).pathname;

    await page.getByRole("button", { name: /^Rank the stored claims with it/ }).click();
    await expect(page.getByRole("heading", { level: 1, name: /claims (otherwise|as before)$/ })).toBeVisible({ timeout: 120_000 });
    await expectAccessible(page);

    await page.goto(edition);
    await page.getByRole("button", { name: "Discard it" }).click();
    await expect(page.getByText("Say why")).toBeVisible();
    await expectAccessible(page);
    await page.getByLabel("Your reason").fill("The dry run leads no claim astray");
    await page.getByRole("button", { name: /^Put edition \d+ in force/ }).click();
    await expect(page.getByText("In force from now on")).toBeVisible();
    await expect(page.getByText(/put it in force: The dry run leads no claim astray/)).toBeVisible();

    // The trade's figures stay as shipped for whatever is tried next on this database.
    await page.goto("/knowledge/1");
    await page.getByRole("button", { name: "Change it into a new edition" }).click();
    await page.getByLabel("What it is for").fill("Back to what was shipped");
    await page.getByLabel("Name of the edition").fill("As shipped");
    await page.getByRole("button", { name: "Propose the edition" }).click();
    await page.getByLabel("Your reason").fill("Only tried");
    await page.getByRole("checkbox").check();
    await page.getByRole("button", { name: /^Put edition \d+ in force/ }).click();
    await expect(page.getByText("In force from now on")).toBeVisible();
  });

  test("is not changed by support, who may read it", async ({ page }) => {
    await signIn(page, "support");
    await page.goto("/knowledge/1");
    await expect(page.getByRole("heading", { name: "Where its figures come from" })).toBeVisible();
    await expect(page.getByRole("button", { name: "Change it into a new edition" })).toHaveCount(0);
  });
});
