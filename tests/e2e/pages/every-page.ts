import { readdirSync } from "node:fs";
import path from "node:path";
import type { Page } from "@playwright/test";
import pg from "pg";
import type { Role } from "../../../lib/domain/claims/roles";

/** How to come to an example of a page: its address, or SQL whose one value fills the place of `*` in it, or a page whose first link leads there. */
type Example = string | { address: string; of: string } | { linkOn: string; to: RegExp };

export interface PageToSee {
  /** Its folder under app/. */
  route: string;
  who: Role;
  example: Example;
}

const CLAIM = "/queue/*";
const openClaim = (stage: string) => `select id from claim where stage = '${stage}' and leader_cause is not null order by filed_at desc, id limit 1`;

/** Every page of the desk, with who works there. Those of a customer are walked through in filing. */
export const DESK_PAGES: readonly PageToSee[] = [
  { route: "queue", who: "support", example: "/queue" },
  { route: "queue/[claimId]", who: "support", example: { address: CLAIM, of: openClaim("in_review") } },
  { route: "queue/[claimId]", who: "support", example: { address: CLAIM, of: openClaim("awaiting_checks") } },
  { route: "queue/[claimId]", who: "support", example: { address: CLAIM, of: openClaim("settled") } },
  { route: "queue/[claimId]", who: "product", example: { address: CLAIM, of: openClaim("decided") } },
  { route: "queue/[claimId]/verdict", who: "support", example: { address: `${CLAIM}/verdict`, of: openClaim("in_review") } },
  { route: "queue/[claimId]/letter", who: "support", example: { address: `${CLAIM}/letter`, of: openClaim("decided") } },
  { route: "queue/[claimId]/bench-inspection", who: "bench", example: { address: `${CLAIM}/bench-inspection`, of: "select claim_id from return where state in ('received', 'on_the_bench') order by authorised_at, id limit 1" } },
  { route: "queue/[claimId]/bench-inspection/disposition", who: "bench", example: { address: `${CLAIM}/bench-inspection/disposition`, of: "select claim_id from return where state in ('on_the_bench', 'dispositioned') order by authorised_at, id limit 1" } },
  { route: "queue/[claimId]/look/[photoId]", who: "support", example: { address: `${CLAIM}`, of: "select claim_id || '/look/' || photo.id from photo join claim on claim.id = claim_id where stage <> 'draft' order by photo.created_at desc limit 1" } },
  { route: "queue/new", who: "support", example: "/queue/new" },
  { route: "queue/search", who: "support", example: "/queue/search?q=drain" },
  { route: "queue/several", who: "support", example: { address: "/queue/several?act=take&claim=*", of: openClaim("in_review") } },
  { route: "queue/second-opinions", who: "support", example: "/queue/second-opinions" },
  { route: "queue/second-opinions/[claimId]", who: "support", example: { linkOn: "/queue/second-opinions", to: /\/queue\/second-opinions\/[0-9a-f-]{36}/ } },
  { route: "returns", who: "bench", example: "/returns" },
  { route: "returns/scan", who: "bench", example: "/returns/scan" },
  { route: "returns/scan", who: "bench", example: { address: "/returns/scan?of=*", of: "select number from return where state = 'received' order by authorised_at, id limit 1" } },
  { route: "returns/evidence", who: "bench", example: "/returns/evidence" },
  { route: "returns/places", who: "admin", example: "/returns/places" },
  { route: "returns/chargebacks", who: "product", example: "/returns/chargebacks" },
  { route: "returns/chargebacks/[number]", who: "product", example: { linkOn: "/returns/chargebacks", to: /\/returns\/chargebacks\/[^/?]+$/ } },
  { route: "reports/money", who: "product", example: "/reports/money" },
  { route: "reports/causes", who: "product", example: "/reports/causes" },
  { route: "reports/causes/cell", who: "product", example: { linkOn: "/reports/causes", to: /\/reports\/causes\/cell\?/ } },
  { route: "reports/causes/claims", who: "product", example: { linkOn: "/reports/causes", to: /\/reports\/causes\/claims\?/ } },
  { route: "reports/desk", who: "product", example: "/reports/desk" },
  { route: "reports/desk/claims", who: "product", example: { linkOn: "/reports/desk", to: /\/reports\/desk\/claims\?/ } },
  { route: "reports/signals", who: "product", example: "/reports/signals" },
  { route: "reports/supplier", who: "product", example: { address: "/reports/supplier?kit=*", of: "select k.code from kit k join kit_revision r on r.kit_id = k.id join claim c on c.kit_revision_id = r.id where c.stage in ('decided', 'settled') and c.shipment_id is not null group by k.code order by count(*) desc limit 1" } },
  { route: "reports/time/forecast", who: "product", example: "/reports/time/forecast" },
  { route: "reports/time/months", who: "product", example: "/reports/time/months" },
  { route: "reports/time/to-claim", who: "product", example: "/reports/time/to-claim" },
  { route: "knowledge", who: "admin", example: "/knowledge" },
  { route: "knowledge/learning", who: "admin", example: "/knowledge/learning" },
  { route: "knowledge/[edition]", who: "admin", example: "/knowledge/1" },
  { route: "knowledge/[edition]/causes/[code]", who: "admin", example: "/knowledge/1/causes/C01" },
  { route: "knowledge/[edition]/findings/[code]", who: "admin", example: "/knowledge/1/findings/F14" },
  { route: "catalogue", who: "admin", example: "/catalogue" },
  { route: "catalogue/kits/[id]", who: "admin", example: { address: "/catalogue/kits/*", of: "select id from kit order by code limit 1" } },
  { route: "catalogue/kits/[id]/revisions/[revisionId]", who: "admin", example: { address: "/catalogue/kits/*", of: "select kit_id || '/revisions/' || id from kit_revision order by introduced_on limit 1" } },
  { route: "catalogue/turbo-models/[id]", who: "admin", example: { address: "/catalogue/turbo-models/*", of: "select id from turbo_model order by code limit 1" } },
  { route: "catalogue/suppliers/[id]", who: "admin", example: { address: "/catalogue/suppliers/*", of: "select id from supplier order by name limit 1" } },
  { route: "catalogue/vehicles/[id]", who: "admin", example: "/catalogue/vehicles/new" },
  { route: "catalogue/fitters/[id]", who: "admin", example: { address: "/catalogue/fitters/*", of: "select id from fitter order by name limit 1" } },
  { route: "figures", who: "admin", example: "/figures" },
  { route: "people", who: "admin", example: "/people" },
  { route: "settings", who: "admin", example: "/settings" },
  { route: "settings/templates", who: "admin", example: "/settings/templates" },
  { route: "settings/warranty", who: "admin", example: "/settings/warranty" },
  { route: "settings/warranty/[number]", who: "admin", example: "/settings/warranty/1" },
  { route: "settings/warranty/draft", who: "admin", example: "/settings/warranty/draft" },
  { route: "mail", who: "admin", example: "/mail" },
  { route: "mail/[mailId]", who: "admin", example: { linkOn: "/mail", to: /\/mail\/[0-9a-f-]{36}/ } },
];

/** Pages that a specification of their own looks at, light and dark: they need something made first, or are a customer's. */
export const SEEN_ELSEWHERE: Readonly<Record<string, string>> = {
  "": "every-page",
  claim: "every-page",
  "claim/[reference]": "main-job",
  "claim/[reference]/label": "returns",
  "claim/[reference]/open": "main-job",
  figures: "figures",
  "figures/[importId]": "figures",
  intake: "intake",
  "intake/[screen]": "intake",
  "intake/checks": "intake",
  "intake/cleared": "intake",
  "intake/offline": "offline",
  "intake/later": "intake",
  "intake/resume": "intake",
  "intake/review": "intake",
  "knowledge/drafts/[draftId]": "knowledge",
  "knowledge/drafts/[draftId]/causes/[code]": "knowledge",
  "knowledge/drafts/[draftId]/findings/[code]": "knowledge",
  "knowledge/trials/[trialId]": "knowledge",
  "queue/new/[claimId]": "desk",
  reports: "leads on to reports/causes",
  "reports/signals/[signalId]": "signals",
  "sign-in": "every-page",
  "sign-in/set-password": "every-page",
};

/** The folder of every page there is. */
export function routesThereAre(): string[] {
  const app = path.resolve(import.meta.dirname, "../../../app");
  return readdirSync(app, { recursive: true, encoding: "utf8" })
    .filter((file) => path.basename(file) === "page.tsx")
    .map((file) => path.dirname(file).replace(/^\.$/, ""))
    .sort();
}

/** Goes to the example of a page. */
export async function goToExample(page: Page, example: Example): Promise<void> {
  if (typeof example === "string") await page.goto(example);
  else if ("of" in example) await page.goto(example.address.replace("*", await oneOf(example.of)));
  else {
    await page.goto(example.linkOn);
    const addresses = await page.locator("main a").evaluateAll((links) => links.map((link) => link.getAttribute("href") ?? ""));
    const address = addresses.find((one) => example.to.test(one));
    if (!address) throw new Error(`no link on ${example.linkOn} leads to ${example.to}`);
    await page.goto(address);
  }
}

async function oneOf(sql: string): Promise<string> {
  const client = new pg.Client({ connectionString: process.env.E2E_DATABASE_URL });
  await client.connect();
  try {
    const { rows } = await client.query<[unknown]>({ text: sql, rowMode: "array" });
    if (rows[0]?.[0] == null) throw new Error(`the demo has nothing for: ${sql}`);
    return String(rows[0][0]);
  } finally {
    await client.end();
  }
}
