import { expect, type Page } from "@playwright/test";
import { DEMO_PEOPLE } from "../../../seed/demo-people";
import type { Role } from "../../../lib/domain/claims/roles";

/** Signs in as the first person of the demo with this role, or as the one of this name. */
export async function signIn(page: Page, role: Role, name?: string): Promise<void> {
  const person = DEMO_PEOPLE.find((one) => one.role === role && (name === undefined || one.name === name));
  if (!person) throw new Error(`the demo has nobody with the role ${role}${name ? ` called ${name}` : ""}`);
  await page.goto("/sign-in");
  await page.getByLabel("E-mail").fill(person.email);
  await page.getByLabel("Password").fill(person.password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
}

/** Waits until the single keys of the desk act on a page that was loaded. */
export async function keysAct(page: Page): Promise<void> {
  await expect(page.locator('html[data-keys="on"]')).toBeAttached();
}

/** Opens a claim from the queue by its reference. */
export async function openClaim(page: Page, reference: string): Promise<void> {
  await page.goto("/queue");
  await page.getByRole("searchbox").fill(reference);
  await page.getByRole("searchbox").press("Enter");
  await page.getByRole("link", { name: reference }).click();
  await expect(page.getByText(reference).first()).toBeVisible();
}
