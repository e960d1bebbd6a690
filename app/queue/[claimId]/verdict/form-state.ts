import type { DeskFormState } from "@/app/_desk/form-state";
import type { SecondPersonGround } from "@/lib/domain/claims/second-person";

export interface VerdictFormState extends DeskFormState {
  /** Null until the form was sent once. */
  contributing: readonly string[] | null;
  /** The letter this verdict would send, with its fingerprint. */
  letter?: { text: string; fingerprint: string; inEnglish?: string | null };
  /** Why a second person looks at it before it goes out. */
  grounds?: readonly SecondPersonGround[];
  /** Null until the form was sent once. */
  letterPhotos: readonly string[] | null;
}
