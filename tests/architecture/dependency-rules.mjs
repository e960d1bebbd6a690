/**
 * Which way imports may point, for dependency-cruiser. The layers, left to right:
 * app, cli, jobs -> operations -> access, mail, files -> data -> domain; inputs -> domain; messages -> domain, and may be
 * imported by all but data, inputs and domain.
 */

/** @param {string[]} names */
const layer = (...names) => `^lib/(${names.join("|")})/`;

/**
 * From one place, no imports of ours but those listed.
 *
 * @param {string} name
 * @param {string} from
 * @param {string | string[]} allowed
 * @param {string} [comment]
 */
const only = (name, from, allowed, comment = "Imports point from left to right.") => ({
  name,
  comment,
  severity: /** @type {const} */ ("error"),
  from: { path: from },
  to: { path: "^(app|lib|seed|tests|prisma)/|^proxy\\.ts$", pathNot: allowed },
});

const ROOT_MODULES = "^lib/(env|log)\\.ts$";

/** @type {import("dependency-cruiser").IFlattenedRuleSet} */
export default {
  forbidden: [
    { name: "no-cycles", severity: "error", from: {}, to: { circular: true } },
    { name: "no-unresolved", severity: "error", from: {}, to: { couldNotResolve: true } },
    only("domain-is-pure", layer("domain"), layer("domain"), "The domain imports nothing of ours but itself."),
    {
      name: "domain-imports-no-package",
      comment: "The domain has no I/O and no framework: single @stdlib packages and d3-array only.",
      severity: "error",
      from: { path: layer("domain") },
      to: { dependencyTypesNot: ["local", "aliased", "aliased-tsconfig", "type-only", "type-import"], pathNot: ["node_modules/(@stdlib/|d3-array/)", "^lib/domain/"] },
    },
    {
      name: "domain-is-used",
      comment: "What only tests reach is no part of the product.",
      severity: "error",
      from: { path: ["^app/", layer("cli", "jobs")] },
      to: { path: layer("domain"), reachable: false },
    },
    only("inputs-import-domain", layer("inputs"), layer("inputs", "domain"), "Schemas are shared with the browser."),
    only("messages-import-domain", layer("messages"), layer("messages", "domain"), "Texts know no page and no record."),
    only("data-imports-domain", layer("data"), [layer("data", "domain"), ROOT_MODULES]),
    only("access-mail-files-import-data", layer("access", "mail", "files"), [layer("access", "mail", "files", "data", "messages", "domain"), ROOT_MODULES]),
    only("operations-import-inwards", layer("operations"), [layer("operations", "access", "mail", "files", "data", "messages", "inputs", "domain"), ROOT_MODULES]),
    only("jobs-import-inwards", layer("jobs"), [layer("jobs", "operations", "access", "mail", "files", "data", "messages", "domain"), ROOT_MODULES]),
    only("cli-imports-inwards", layer("cli"), [layer("cli", "operations", "access", "mail", "files", "data", "messages", "inputs", "domain"), ROOT_MODULES, "^seed/demo-people\\.ts$"]),
    only("app-never-imports-data", "^(app/|proxy\\.ts$)", ["^app/", layer("operations", "access", "mail", "files", "messages", "inputs", "domain"), ROOT_MODULES], "Pages and actions call operations."),
    only("seed-stays-outside", "^seed/", ["^seed/", layer("operations", "access", "mail", "files", "data", "messages", "inputs", "domain"), ROOT_MODULES]),
    {
      name: "prisma-stops-at-data",
      severity: "error",
      from: { pathNot: [layer("data"), "^prisma/"] },
      to: { path: ["^lib/data/generated/", "node_modules/(@prisma|prisma)/"] },
    },
    {
      name: "lib-never-imports-app",
      severity: "error",
      from: { path: "^lib/" },
      to: { path: "^app/" },
    },
  ],
};
