import { expect, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { signIn } from "./pages/desk";

const HEADINGS = "Order no.;Customer e-mail;Customer name;Country;Ship date;SKU;Serial number";

test("an administrator brings in shipments: corrects what is wrong, then takes them in, and sends the same file again", async ({ page }, { project }) => {
  const serial = `E2E-${project.name.toUpperCase()}-1`;
  const send = async (rows: string) => {
    await page.goto("/figures");
    await page.getByLabel("File", { exact: true }).setInputFiles({ name: "shipments.csv", mimeType: "text/csv", buffer: Buffer.from(`${HEADINGS}\n${rows}\n`) });
    await page.getByRole("button", { name: "Send it and look at its first rows" }).click();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Look at how shipments.csv is read, then bring it in");
  };
  await signIn(page, "admin");
  await page.goto("/figures");
  await expectAccessible(page);

  await send(`E2E-${project.name};runa@example.org;Runa;DE;3.11.2025;KH-110;${serial}\nE2E-2;runa@example.org;Runa;DE;3.11.2025;KH-000;`);
  await expect(page.getByText("3 November 2025").first()).toBeVisible();
  await expectAccessible(page);
  await page.getByRole("button", { name: "Bring it in" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("shipments.csv: nothing taken in: one row of 2 to correct");
  await expect(page.getByText("There is no kit with this code")).toBeVisible();
  await expectAccessible(page);
  const list = await page.request.get((await page.getByRole("link", { name: "All of them as CSV" }).getAttribute("href")) ?? "");
  expect(await list.text()).toContain(`3,SKU,KH-000,"There is no kit with this code`);

  for (const outcome of ["1 added", "1 there already"]) {
    await send(`E2E-${project.name};runa@example.org;Runa;DE;3.11.2025;KH-110;${serial}`);
    await page.getByRole("button", { name: "Bring it in" }).click();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText(`shipments.csv: ${outcome}`);
  }
});

test("an administrator says who makes the parts of a kit, by a page of the catalogue", async ({ page }, { project }) => {
  const supplier = `Works of ${project.name}`;
  const takeOut = async () => {
    await page.getByText("Take it out of the catalogue").click();
    await page.getByRole("button", { name: /^Take out/ }).click();
  };
  await signIn(page, "admin");
  await page.goto("/catalogue/suppliers/new");
  await page.getByLabel("Code").fill(`E2E-${project.name}`);
  await page.getByLabel("Name").fill(supplier);
  await page.getByRole("button", { name: "Add it" }).click();
  await expect(page.getByRole("link", { name: "Write an e-mail address" })).toBeVisible();
  await page.getByLabel("Mail for claims").fill("claims@works.example");
  await page.getByRole("button", { name: "Add it" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(`${supplier} makes nothing yet`);
  const address = page.url();

  await page.goto("/catalogue/kits/new");
  await page.getByLabel("Code").fill(`E2E-${project.name}`);
  await page.getByLabel("Name").fill("Hoses");
  await page.getByLabel("Who makes its parts").selectOption(supplier);
  await page.getByRole("button", { name: "Add it" }).click();
  await expect(page.getByRole("status")).toHaveText("Kept.");
  const kit = page.url();

  await page.goto(address);
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(`${supplier} makes the parts of one kit`);
  await takeOut();
  await expect(page.getByRole("status")).toContainText("It stays");
  for (const entry of [kit, address]) {
    await page.goto(entry);
    await takeOut();
    await expect(page.getByRole("status")).toHaveText("Taken out of the catalogue.");
  }
});

test("a file that is none, or from another site, is refused by its own answer", async ({ page, baseURL }) => {
  await signIn(page, "admin");
  const post = (buffer: Buffer, headers: Record<string, string> = {}) => page.request.post("/api/figures", { headers: { origin: baseURL ?? "", ...headers }, multipart: { kind: "kits", file: { name: "kits.csv", mimeType: "text/csv", buffer } } });
  expect((await post(Buffer.from("%PDF-1.7\n"))).status()).toBe(415);
  expect((await post(Buffer.alloc(0))).status()).toBe(400);
  expect((await post(Buffer.alloc(105 * 1024 * 1024, "a,b\n"))).status()).toBe(413);
  expect((await post(Buffer.from("a,b\n1,2\n"), { origin: "https://elsewhere.example" })).status()).toBe(403);
});

test("figures are the administrator's", async ({ page, baseURL }) => {
  await signIn(page, "product");
  expect((await page.goto("/figures"))?.status()).toBe(403);
  expect((await page.request.post("/api/figures", { headers: { origin: baseURL ?? "" }, multipart: { kind: "kits", file: { name: "kits.csv", mimeType: "text/csv", buffer: Buffer.from("a,b\n") } } })).status()).toBe(403);
});
