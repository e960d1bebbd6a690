"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import styles from "./reports.module.css";

const SHEETS = [
  { name: "Causes", href: "/reports/causes", within: "/reports/causes" },
  { name: "Signals", href: "/reports/signals", within: "/reports/signals" },
  { name: "Time", href: "/reports/time/months", within: "/reports/time" },
  { name: "The desk", href: "/reports/desk", within: "/reports/desk" },
  { name: "Money", href: "/reports/money", within: "/reports/money" },
] as const;

/** The way from each report to the others; only the address tells a layout which of them is open. */
export function Sheets() {
  const path = usePathname();
  return (
    <nav aria-label="Reports" className={`${styles.sheets} small letter no-print`}>
      {SHEETS.map(({ name, href, within }) => (
        <Link key={href} href={href} aria-current={path === href ? "page" : path.startsWith(within) ? "true" : undefined}>
          {name}
        </Link>
      ))}
    </nav>
  );
}
