import type { ReactNode } from "react";

/** A danger to people or engine, shown where the work is. */
export function Caution({ title, children }: { title: string; children: ReactNode }) {
  return (
    <div className="caution">
      <strong>{title}</strong>
      <br />
      {children}
    </div>
  );
}
