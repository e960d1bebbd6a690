import type { Role } from "@/lib/domain/claims/roles";

/** Where each role's work begins. */
const FIRST_PAGES: Readonly<Record<Role, string>> = { support: "/queue", bench: "/returns", product: "/reports/causes", admin: "/queue" };

export function firstPage(role: Role): string {
  return FIRST_PAGES[role];
}
