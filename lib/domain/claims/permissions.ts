import type { Role } from "./roles";

/**
 * What staff may do. Each operation asks for exactly one of these; a role that is not named is refused.
 * A customer has no role: a private link opens one claim, see `lib/access/customer.ts`.
 */
export const PERMISSIONS = {
  "see the queue": ["support", "bench", "admin"],
  /** By numbers and by words; by a name only who sees the customer. */
  "search claims": ["support", "bench", "product", "admin"],
  /** To type in a complaint for a customer who calls. */
  "file for a caller": ["support", "admin"],
  "see a claim": ["support", "bench", "product", "admin"],
  /** Name, e-mail, telephone, messages. */
  "see the customer": ["support", "bench", "admin"],
  "ask for a check": ["support", "admin"],
  "record a finding": ["support", "bench", "admin"],
  "write a message": ["support", "admin"],
  /** Notes of the desk for itself may tell of a customer. */
  "read and write notes": ["support", "bench", "admin"],
  "mark a photo": ["support", "bench", "admin"],
  /** To link claims that have to do with each other, to merge what was filed twice, and to say which unit of a pair it is. */
  "link or merge claims": ["support", "admin"],
  "change message templates": ["support", "admin"],
  "confirm a verdict": ["support", "admin"],
  /** Of another person's verdict, before it goes out. */
  "look a second time": ["support", "admin"],
  "see the warranty terms": ["support", "bench", "product", "admin"],
  "change the warranty terms": ["admin"],
  "authorise a return": ["support", "admin"],
  /** To take in what comes, and to say where it goes next. */
  "hand over a unit": ["support", "bench", "admin"],
  "inspect a unit": ["bench", "admin"],
  "book a settlement": ["support", "admin"],
  "see reports": ["support", "product", "admin"],
  "decide on signals": ["product", "admin"],
  "write to a supplier": ["product", "admin"],
  "see the knowledge": ["support", "product", "admin"],
  "change the knowledge": ["admin"],
  "see the mail": ["admin"],
  /** Shipments name customers, and what comes in moves every rate: the administrator's alone. */
  "bring in figures": ["admin"],
  "change the catalogue": ["admin"],
  "manage people": ["admin"],
  "change the settings": ["admin"],
} as const satisfies Record<string, readonly Role[]>;
export type Permission = keyof typeof PERMISSIONS;

/** Whether this role holds this permission. */
export function may(role: Role, permission: Permission): boolean {
  return (PERMISSIONS[permission] as readonly Role[]).includes(role);
}
