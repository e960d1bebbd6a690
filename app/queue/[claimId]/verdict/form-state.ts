import type { DeskFormState } from "@/app/_desk/form-state";

export interface VerdictFormState extends DeskFormState {
  /** Null until the form was sent once. */
  contributing: readonly string[] | null;
  /** The letter this verdict would send, with its fingerprint. */
  letter?: { text: string; fingerprint: string };
}
