"use server";

import { cookies } from "next/headers";
import { redirect } from "next/navigation";
import { SESSION_COOKIE, SESSION_COOKIE_OPTIONS } from "@/lib/access/auth-options";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { signOut } from "@/lib/operations/sign-out";

/** Ends the session here and in the database. */
export async function signOutHere(): Promise<void> {
  await requireOwnOrigin();
  const jar = await cookies();
  const token = jar.get(SESSION_COOKIE)?.value;
  if (token) await signOut(token);
  jar.set(SESSION_COOKIE, "", { ...SESSION_COOKIE_OPTIONS, maxAge: 0 });
  redirect("/sign-in");
}
