"use client";

import Link from "next/link";
import { useRouter } from "next/navigation";
import { useEffect } from "react";
import type { ImportState } from "@/lib/domain/imports/kinds";
import { type ImportPhase, importProgress } from "@/lib/domain/imports/progress";
import styles from "../figures.module.css";

const LOOK_AGAIN_MS = 1500;

const PHASES: Readonly<Record<ImportPhase, (rows: string) => string>> = {
  reading: (rows) => `Step 1 of 3: reading, ${rows} rows so far`,
  checking: (rows) => `Step 2 of 3: checking ${rows} rows against what is there`,
  writing: (rows) => `Step 3 of 3: taking in ${rows} rows`,
};

/** How far the worker is with a file. With script the page looks again by itself. */
export function Progress({ file, here }: { file: { state: ImportState; phase: ImportPhase | null; bytesRead: number; bytes: number; rows: number }; here: string }) {
  const router = useRouter();
  useEffect(() => {
    const timer = setInterval(() => router.refresh(), LOOK_AGAIN_MS);
    return () => clearInterval(timer);
  }, [router]);
  const done = importProgress(file);
  return (
    <section className="sheet">
      <h2 id="progress">{file.state === "queued" || !file.phase ? "It begins as soon as the worker is free" : PHASES[file.phase](file.rows.toLocaleString("en"))}</h2>
      <progress className={styles.progress} aria-labelledby="progress" max={100} value={Math.round(100 * done)} />
      <p className="small soft">
        You may leave this page: the work goes on. Should it be interrupted, it begins anew by itself; nothing is half done. <Link href={here}>Look again</Link>
      </p>
    </section>
  );
}
