import type { Metadata } from "next";
import Link from "next/link";
import { mayPasswordBeSet } from "@/lib/operations/set-password";
import { SetPasswordForm } from "./set-password-form";

export const metadata: Metadata = { title: "Choose a password" };

export default async function SetPasswordPage({ searchParams }: { searchParams: Promise<{ key?: string | string[] }> }) {
  const { key } = await searchParams;
  const opens = typeof key === "string" && key.length <= 100 && (await mayPasswordBeSet(key));
  return (
    <main id="main" className="page column">
      <p className="small letter soft">Fit or Fault / For staff</p>
      <section className="sheet">
        {opens ? (
          <>
            <h1>Choose your password</h1>
            <SetPasswordForm passwordKey={key} />
          </>
        ) : (
          <>
            <h1>This link does not work any more</h1>
            <p>
              It was used already, or it has run out, or a newer one was sent. Ask an administrator for a new one; or <Link href="/sign-in">sign in</Link> if you have set your password.
            </p>
          </>
        )}
      </section>
    </main>
  );
}
