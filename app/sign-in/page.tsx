import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { currentStaff } from "@/lib/access/staff";
import { env } from "@/lib/env";
import { ownPath } from "@/lib/inputs/sign-in";
import { firstPage } from "./first-page";
import { SignInForm } from "./sign-in-form";

export const metadata: Metadata = { title: "Sign in" };

export default async function SignInPage({ searchParams }: { searchParams: Promise<{ next?: string | string[]; set?: string | string[] }> }) {
  const { next, set } = await searchParams;
  const actor = await currentStaff();
  if (actor) redirect(ownPath(next) ?? firstPage(actor.role));
  return (
    <main id="main" className="page column stack">
      <p className="small letter soft">Fit or Fault / For staff</p>
      <section className="sheet">
        <h1>Sign in to the desk</h1>
        {set === undefined ? null : <p className="note">Your password is set. Sign in with it.</p>}
        <SignInForm next={ownPath(next)} />
        {env.DEMO ? (
          <p className="small soft">
            This is the demo: <code>npm run up</code> printed the sign-ins of its people.
          </p>
        ) : null}
      </section>
      <p>
        Your turbo leaks oil? <a href="/">Tell us about it here</a>; you need no account.
      </p>
    </main>
  );
}
