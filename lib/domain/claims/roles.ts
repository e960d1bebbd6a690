export const ROLES = ["support", "bench", "product", "admin"] as const;
export type Role = (typeof ROLES)[number];

export const ROLE_NAMES: Readonly<Record<Role, string>> = {
  support: "support",
  bench: "bench technician",
  product: "product manager",
  admin: "administrator",
};
