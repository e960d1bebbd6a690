import Link from "next/link";
import type { ReactNode } from "react";
import { DeskShell } from "@/app/_desk/desk-shell";
import type { StaffActor } from "@/lib/access/actors";
import type { EntryKind } from "@/lib/domain/catalogue/entries";
import { removeHere } from "./actions";
import styles from "./catalogue.module.css";
import { Said } from "./said";

interface Props {
  actor: StaffActor;
  heading: string;
  said: string | undefined;
  /** What can be taken out while nothing stands on it; none for what is to be added. */
  removable?: { kind: EntryKind; id: string; name: string };
  children: ReactNode;
}

/** The page of one entry of the catalogue. */
export function EntryPage({ actor, heading, said, removable, children }: Props) {
  return (
    <DeskShell actor={actor} here="Catalogue">
      <p className="small">
        <Link href="/catalogue">Catalogue</Link>
      </p>
      <h1>{heading}</h1>
      <Said said={said} />
      <div className={styles.sheets}>{children}</div>
      {removable ? (
        <details className={`no-print ${styles.out}`}>
          <summary>Take it out of the catalogue</summary>
          <form action={removeHere.bind(null, removable.kind, removable.id)}>
            <p className="small">Only what nothing stands on is taken out. What is no longer sold stays, with its claims.</p>
            <button type="submit" className="button tight plain">
              Take out {removable.name}
            </button>
          </form>
        </details>
      ) : null}
    </DeskShell>
  );
}
