import Link from "next/link";
import { currentStaff } from "@/lib/access/staff";
import { ROLE_NAMES } from "@/lib/domain/claims/roles";
import { DeskShell } from "./_desk/desk-shell";
import { firstPage } from "./sign-in/first-page";

/** 403: signed in, and not this role's to see or do. */
export default async function Forbidden() {
  const actor = await currentStaff();
  const words = (
    <div className="sheet">
      <h1>This is not yours to open</h1>
      <p>
        {actor ? `You are signed in as ${actor.name}, ${ROLE_NAMES[actor.role]}. ` : ""}
        Your role does not include this page. If it should, ask an administrator.
      </p>
      <p>
        <Link href={actor ? firstPage(actor.role) : "/sign-in"}>{actor ? "Back to your own work" : "Sign in"}</Link>
      </p>
    </div>
  );
  if (actor) {
    return (
      <DeskShell actor={actor} here="No entry">
        {words}
      </DeskShell>
    );
  }
  return (
    <main id="main" className="page column">
      {words}
    </main>
  );
}
