import type { ReactNode } from "react";
import { currentStaff } from "@/lib/access/staff";
import { DeskShell } from "../_desk/desk-shell";
import styles from "./reports.module.css";
import { Sheets } from "./sheets";

/** The desk's frame about every report; each page asks for itself who may see it. */
export default async function ReportsLayout({ children }: { children: ReactNode }) {
  const actor = await currentStaff();
  if (!actor) return children;
  return (
    <DeskShell actor={actor} here="Reports">
      <Sheets />
      <div className={styles.report}>{children}</div>
    </DeskShell>
  );
}
