"use server";

import { cookies } from "next/headers";
import { redirect } from "next/navigation";
import type { DeskFormState } from "@/app/_desk/form-state";
import { SESSION_COOKIE, SESSION_COOKIE_OPTIONS, SESSION_SECONDS } from "@/lib/access/auth-options";
import { callerAddress } from "@/lib/access/caller";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { stringsOf } from "@/lib/inputs/form";
import { messagesOf } from "@/lib/inputs/intake";
import { ownPath, signInSchema } from "@/lib/inputs/sign-in";
import { signIn } from "@/lib/operations/sign-in";
import { firstPage } from "./first-page";

const REFUSED = {
  wrong: "This e-mail address and password do not belong together",
  "too-many-tries": "Too many tries. Wait a quarter of an hour",
} as const;

export async function signInHere(_before: DeskFormState, form: FormData): Promise<DeskFormState> {
  await requireOwnOrigin();
  const values = { email: stringsOf(form).email ?? "" };
  const input = signInSchema.safeParse(Object.fromEntries(form));
  if (!input.success) return { values, messages: messagesOf(input.error) };
  const signedIn = await signIn(input.data, await callerAddress());
  if (!signedIn.ok) return { values, messages: {}, problem: REFUSED[signedIn.reason] };
  (await cookies()).set(SESSION_COOKIE, signedIn.token, { ...SESSION_COOKIE_OPTIONS, maxAge: SESSION_SECONDS });
  redirect(ownPath(form.get("next")) ?? signedIn.start ?? firstPage(signedIn.role));
}
