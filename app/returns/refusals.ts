/** Why something could not be done with a unit or a parcel. */
export const RETURN_REFUSALS = {
  "not-found": "There is no such return or parcel",
  "not-expected": "It was taken in already, or somebody has inspected it. Below stands where it is",
  "no-door": "No place is kept where parcels come in. An administrator adds one under Places",
  "no-quarantine": "No place is kept for parcels that nobody can tell. An administrator adds one under Places",
  "unknown-place": "There is no such place, or nothing is brought there any more",
  "there-already": "It is there already",
  "not-from-here": "It may not go there yet: a unit leaves the house once the bench is done with it, a parcel once somebody has said what becomes of it",
  "moved-meanwhile": "Somebody else handed it over meanwhile. Below stands where it is",
  "unknown-number": "No claim and no return has this number. Check each sign",
  "decided-meanwhile": "Somebody else decided about this parcel meanwhile. Load the page again",
  "unit-is-here": "The unit of this claim is here already",
  "not-in-doubt": "The serial is not in doubt any more. Load the page again",
  "not-awaited": "This unit is here already, or no unit is awaited. Load the page again",
  "not-legal-here": "This cannot be done to the return any more. Load the page again",
  "code-taken": "Another place has this code",
  "last-of-its-kind": "It is the last place of its kind, and what comes in needs one",
} as const;
export type ReturnRefusal = keyof typeof RETURN_REFUSALS;

/** The one place that turns them into sentences. */
export function refusalInWords(reason: ReturnRefusal): string {
  return RETURN_REFUSALS[reason];
}
