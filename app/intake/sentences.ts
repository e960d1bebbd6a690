/** Why an answer was not kept or a claim not filed, in words. */
export const SENTENCES = {
  "no-such-order": "We find no order with this number and e-mail address. Check both, or go on and pick the kit",
  "no-such-serial": "We do not know this serial number. Check it against the plate, or go on and pick the kit",
  "too-many-tries": "Too many look-ups in a short time. Wait ten minutes, or go on and pick the kit",
  "changed-meanwhile": "This was changed in another window just now. Look at it once more and continue",
  "too-many-drafts": "Too many complaints were begun from here in the last hour. Try again later",
  "too-many-filings": "Too many complaints were filed from here in the last hour. What you wrote is kept; try again later",
} as const;
