import { type Browser, expect, type Page, test } from "@playwright/test";
import { expectAccessible } from "./pages/axe";
import { mailTo } from "./pages/demo";
import { signIn } from "./pages/desk";
import { reviewedClaim } from "./pages/reviewed-claim";

const TABLET = { viewport: { width: 768, height: 1024 } };
const SERIAL = "VT40-2608-0019";

const heading = (page: Page) => page.getByRole("heading", { level: 1 });
const linkIn = (text: string | undefined) => /http\S+\/open\?key=\S+/.exec(text ?? "")?.[0] ?? "";

async function staffPage(browser: Browser, role: "support" | "bench", size: object): Promise<Page> {
  const page = await (await browser.newContext(size)).newPage();
  await signIn(page, role);
  return page;
}

/** As a scanner does it: the signs and Enter, into whatever has the focus. */
async function scan(page: Page, text: string): Promise<void> {
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
}

test("a unit is asked for, sent with its label, and goes from the door to a shelf", async ({ browser, page: customer }, { project }) => {
  const email = `ada.${project.name}.${Date.now()}@example.org`;
  const { id, reference } = await reviewedClaim(email, SERIAL);
  let number = "";

  const support = await staffPage(browser, "support", { viewport: project.use.viewport ?? null });
  await test.step("support asks for it, with a word to the customer", async () => {
    await support.goto(`/queue/${id}`);
    const section = support.locator("#return");
    await section.getByLabel("To the customer").fill("Please leave the gasket on.");
    await section.getByRole("button", { name: "Ask for the unit" }).click();
    await expect(section.getByText(/^R-\S+ authorised/)).toBeVisible();
  });

  await test.step("the customer opens the mailed link, and reads how to send it", async () => {
    const mail = await mailTo(email, /^Please send us the unit/);
    number = /R-[2-9A-Z-]{12}/.exec(mail.subject ?? "")?.[0] ?? "";
    await customer.goto(linkIn(mail.text));
    await customer.getByRole("button", { name: "Open my complaint" }).click();
    await expect(heading(customer)).toHaveText(/^Please send us the unit: it should be here by /);
    await expect(customer.getByRole("heading", { name: `How to send it: return ${number}` })).toBeVisible();
    await expect(customer.getByText("Please leave the gasket on.")).toBeVisible();
  });

  await test.step("a label with the sender's address is made; on paper nothing of it is cut off", async () => {
    await customer.getByRole("textbox", { name: "Street and house number" }).fill("Long Lane 112, third yard");
    await customer.getByRole("textbox", { name: "Postcode" }).fill("48901");
    await customer.getByRole("textbox", { name: "Town" }).fill("Upper Kirkham by the Meadow");
    await customer.getByRole("button", { name: "Make the label" }).click();
    await customer.waitForURL(/\/label$/);
    await expectAccessible(customer);
    await customer.emulateMedia({ media: "print" });
    const label = customer.getByRole("img", { name: /^Label for return/ });
    const outside = await label.evaluate((drawing) => {
      const paper = drawing.getBoundingClientRect();
      return [...drawing.querySelectorAll("text, path")].filter((part) => {
        const { left, right, top, bottom } = part.getBoundingClientRect();
        return left < paper.left || right > paper.right || top < paper.top || bottom > paper.bottom;
      }).length;
    });
    expect(outside).toBe(0);
    expect((await customer.pdf({ format: "A4" })).toString("latin1").match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await customer.emulateMedia({ media: "screen" });
    for (const paper of ["a4", "a6", "roll"]) expect((await (await customer.request.get(`/claim/${reference}/label/file?paper=${paper}`)).body()).subarray(0, 5).toString()).toBe("%PDF-");
  });

  await test.step("the customer says who carries it", async () => {
    await customer.getByRole("link", { name: "Back to your complaint" }).click();
    await customer.getByRole("textbox", { name: "Carrier" }).fill("Tellmar Parcels");
    await customer.getByRole("textbox", { name: "Tracking number" }).fill("TL 7731");
    await customer.getByRole("button", { name: "It is on its way" }).click();
    await expect(customer.getByRole("heading", { name: /^The unit is on its way to us since/ })).toBeVisible();
    await expect(customer.getByText("Carried by Tellmar Parcels, tracking number TL 7731.")).toBeVisible();
  });

  const bench = await staffPage(browser, "bench", TABLET);
  await test.step("the bench takes it in, to the bench and to a shelf, by the keyboard alone", async () => {
    await bench.goto("/returns/scan");
    await expect(bench.locator("#scanned")).toBeFocused();
    await scan(bench, number);
    await expect(heading(bench)).toHaveText(`${number} is expected`);
    await expect(bench.locator("#scanned")).toBeFocused();
    for (let tabs = 0; tabs < 6 && !(await bench.getByLabel("Serial on the unit").evaluate((field) => field === document.activeElement)); tabs += 1) await bench.keyboard.press("Tab");
    await scan(bench, SERIAL);
    await expect(bench.getByRole("status").filter({ hasText: "The serial is the one of the claim." })).toBeVisible();
    await expect(heading(bench)).toHaveText(`${number} waits at the door`);
    for (const [place, words] of [["PLACE-BENCH", "is on the bench"], ["PLACE-SHELF-1", "lies on Shelf 1"]] as const) {
      await expect(bench.locator("#scanned")).toBeFocused();
      await scan(bench, place);
      await expect(heading(bench)).toHaveText(`${number} ${words}`);
    }
    await expectAccessible(bench);
  });

  await test.step("a parcel that nobody expects is kept, and support match it to its claim", async () => {
    const other = await reviewedClaim(email, "VT40-2608-0020");
    await bench.goto("/returns");
    await bench.getByRole("link", { name: "Take in a parcel without a number" }).click();
    await bench.getByLabel("What is in it").fill("A turbocharger, and a letter that has got wet");
    await bench.getByRole("button", { name: "Take it in" }).click();
    await expect(heading(bench)).toHaveText(/^P-\S+ is in quarantine$/);
    await support.goto(new URL(bench.url()).pathname + new URL(bench.url()).search);
    await support.getByLabel(/^Reference of the claim/).fill(other.reference);
    await support.getByRole("button", { name: "It is the unit of this claim" }).click();
    await expect(support.getByRole("status").filter({ hasText: /^Matched/ })).toBeVisible();
    await expect(support.getByRole("link", { name: other.reference })).toBeVisible();
  });
  await bench.context().close();
  await support.context().close();

  await test.step("without script the claim is found by its reference and address, and its page reads in full", async () => {
    const plain = await (await browser.newContext({ javaScriptEnabled: false })).newPage();
    await plain.goto("/claim");
    await plain.getByLabel("Reference").fill(reference.toLowerCase().replaceAll("-", " "));
    await plain.getByLabel("E-mail address you gave").fill(email.toUpperCase());
    await plain.getByRole("button", { name: /link/i }).click();
    await expect(plain.getByRole("status")).toContainText("a link to it is on its way");
    await plain.goto(linkIn((await mailTo(email, /^Link to your complaint/)).text));
    await plain.getByRole("button", { name: "Open my complaint" }).click();
    await expect(heading(plain)).toHaveText("The unit is with us");
    await expect(plain.getByRole("heading", { name: /^The unit is here since/ })).toBeVisible();
    await expect(plain.getByText("Please leave the gasket on.")).toBeVisible();
    await expect(plain.getByRole("textbox", { name: "Your message" })).toBeVisible();
    await plain.context().close();
  });
});
