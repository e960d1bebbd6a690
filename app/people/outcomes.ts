/** What is said above the list after an act; the address carries the code, never the words. */
const OUTCOMES = {
  invited: "Invited. The link to choose a password is in the mail.",
  "link-sent": "A new link is in the mail. Links sent before no longer work.",
  "role-changed": "The role is changed. The person signs in again.",
  disabled: "Disabled. Every session of this person has ended.",
  enabled: "Enabled again, with the password they had.",
  yourself: "Nobody changes their own role or disables themselves. Ask another administrator.",
  "last-administrator": "This is the last administrator who can sign in. Make another first.",
  "unknown-person": "There is no such person.",
  "is-disabled": "This person is disabled. Enable them first.",
} as const;
export type Outcome = keyof typeof OUTCOMES;

export function outcomeInWords(said: unknown): string | null {
  return typeof said === "string" && Object.hasOwn(OUTCOMES, said) ? OUTCOMES[said as Outcome] : null;
}
