import Link from "next/link";
import type { ReactNode } from "react";
import type { StaffActor } from "@/lib/access/actors";
import { may, type Permission } from "@/lib/domain/claims/permissions";
import { ROLE_NAMES } from "@/lib/domain/claims/roles";
import { env } from "@/lib/env";
import { signOutHere } from "./actions";
import styles from "./desk-shell.module.css";

interface Room {
  name: string;
  href: string;
  permission: Permission;
}

const ROOMS: readonly Room[] = [
  { name: "Queue", href: "/queue", permission: "see the queue" },
  { name: "Returns", href: "/returns", permission: "hand over a unit" },
  { name: "Chargebacks", href: "/returns/chargebacks", permission: "write to a supplier" },
  { name: "Reports", href: "/reports/causes", permission: "see reports" },
  { name: "Knowledge", href: "/knowledge", permission: "see the knowledge" },
  { name: "Catalogue", href: "/catalogue", permission: "change the catalogue" },
  { name: "Figures", href: "/figures", permission: "bring in figures" },
  { name: "People", href: "/people", permission: "manage people" },
  { name: "Settings", href: "/settings", permission: "change the settings" },
  { name: "Mail", href: "/mail", permission: "see the mail" },
];

/**
 * The frame of every staff page: one line that says where one is, leads to the rooms this role may enter, and signs out.
 *
 * @param here name of the room, `Queue`; shown as the one the page belongs to
 */
export function DeskShell({ actor, here, children }: { actor: StaffActor; here: string; children: ReactNode }) {
  const rooms = ROOMS.filter(({ permission }) => may(actor.role, permission) || (env.DEMO && permission === "see the mail"));
  return (
    <>
      <header className={`${styles.line} letter no-print`}>
        <span>
          Fit or Fault <span className="soft">/ {here}</span>
        </span>
        <nav aria-label="Desk" className={styles.rooms}>
          {rooms.map(({ name, href }) => (
            <Link key={href} href={href} {...(name === here ? { "aria-current": "page" as const } : {})}>
              {name}
            </Link>
          ))}
        </nav>
        <form action={signOutHere} className={styles.person}>
          <span>
            {actor.name}, <span className="soft">{ROLE_NAMES[actor.role]}</span>
          </span>
          <button type="submit" className="link-button">
            Sign out
          </button>
        </form>
      </header>
      <main id="main" className="page desk">
        {children}
      </main>
    </>
  );
}
