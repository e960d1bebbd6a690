import Link from "next/link";
import type { ReactNode } from "react";
import { currentStaff } from "@/lib/access/staff";
import { DeskShell } from "../_desk/desk-shell";
import styles from "./reports.module.css";

/** The desk's frame about every report; each page asks for itself who may see it. */
export default async function ReportsLayout({ children }: { children: ReactNode }) {
  const actor = await currentStaff();
  if (!actor) return children;
  return (
    <DeskShell actor={actor} here="Reports">
      <nav aria-label="Reports" className={`${styles.sheets} small letter no-print`}>
        <Link href="/reports/causes">Causes</Link>
        <Link href="/reports/signals">Signals</Link>
        <Link href="/reports/time/months">Time</Link>
        <Link href="/reports/desk">The desk</Link>
        <Link href="/reports/money">Money</Link>
      </nav>
      <div className={styles.report}>{children}</div>
    </DeskShell>
  );
}
