import { stringsOf } from "@/lib/inputs/form";
import type { DeskFormState } from "./form-state";

/** What a form comes back with where the session has ended meanwhile: all that was typed, and how to go on. */
export function signedOut(form: FormData): DeskFormState {
  return { values: stringsOf(form), messages: {}, problem: "You have been signed out meanwhile. What you typed is still here: sign in in another window, then send this again" };
}
