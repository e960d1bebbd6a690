import { expect, test } from "@playwright/test";

test.describe("every answer", () => {
  for (const address of ["/", "/intake", "/sign-in", "/no-such-page", "/icon-x", "/intake/photosfoo", "/claim/x/photosfoo", "/claim/K7MP-4Q2-HXW"]) {
    test(`${address} carries a nonce policy and the security headers`, async ({ request }) => {
      const answer = await request.get(address);
      const headers = answer.headers();
      expect(headers["content-security-policy"]).toMatch(/script-src 'self' 'nonce-[0-9a-f]{32}' 'strict-dynamic'/);
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["x-frame-options"]).toBe("DENY");
      expect(headers["referrer-policy"]).toBe("same-origin");
      expect(headers["x-powered-by"]).toBeUndefined();
    });
  }

  for (const address of ["/icon.svg", "/intake/photos/uploads/x", "/claim/x/photos/x", "/queue/x/bench-inspection/photos/uploads/x", "/api/figures"]) {
    test(`${address}, which no policy with a nonce is made for, lets nothing run`, async ({ request }) => {
      const headers = (await request.get(address)).headers();
      expect(headers["content-security-policy"]).toBe("default-src 'none'; frame-ancestors 'none'");
      expect(headers["x-content-type-options"]).toBe("nosniff");
    });
  }

  test("loads nothing from elsewhere, and breaks no rule of its policy", async ({ page, baseURL }) => {
    const elsewhere: string[] = [];
    const complaints: string[] = [];
    page.on("request", (request) => {
      if (!request.url().startsWith(baseURL ?? "") && !/^(data|blob):/.test(request.url())) elsewhere.push(request.url());
    });
    page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
    for (const address of ["/", "/intake", "/sign-in"]) await page.goto(address, { waitUntil: "networkidle" });
    expect(elsewhere).toEqual([]);
    expect(complaints).toEqual([]);
  });
});

test("liveness and readiness answer", async ({ request }) => {
  expect(await (await request.get("/health/live")).json()).toEqual({ live: true });
  expect(await (await request.get("/health/ready")).json()).toEqual({ ready: true });
});

test("a stranger gets one and the same page for a claim that exists and one that does not", async ({ request }) => {
  const [foreign, none, garbage] = await Promise.all(["/claim/XU2X-4HT-RXM", "/claim/K7MP-4Q2-HXW", "/claim/%F0%9F%99%82"].map((address) => request.get(address)));
  expect([foreign?.status(), none?.status(), garbage?.status()]).toEqual([404, 404, 404]);
});

test("a stranger is sent to sign in, and reports and files are refused to them", async ({ page, request }) => {
  for (const address of ["/queue", "/reports/causes", "/people", "/returns"]) {
    await page.goto(address);
    expect(new URL(page.url()).pathname).toBe("/sign-in");
  }
  const file = await request.get("/api/reports/causes", { maxRedirects: 0 });
  expect(file.status()).toBeGreaterThanOrEqual(400);
  expect(file.status()).toBeLessThan(500);
});

test("an action sent from another site's page is refused", async ({ page, request, baseURL }) => {
  await page.goto("/intake");
  const form = page.locator("form").first();
  const fields = await form.locator("input[type=hidden]").evaluateAll((inputs) => inputs.map((input) => [(input as HTMLInputElement).name, (input as HTMLInputElement).value] as const));
  const answer = await request.post(page.url(), {
    headers: { origin: "https://elsewhere.example", "x-forwarded-host": "elsewhere.example", cookie: (await page.context().cookies()).map(({ name, value }) => `${name}=${value}`).join("; ") },
    multipart: { ...Object.fromEntries(fields), who: "owner" },
    maxRedirects: 0,
  });
  expect(answer.status()).toBe(403);
  // Nothing was saved: the first question is still open.
  await page.goto(`${baseURL}/intake`);
  expect(new URL(page.url()).pathname).toBe("/intake/who");
});
