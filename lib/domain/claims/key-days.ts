/** How long a browser may follow a claim, and keep a draft. */
export const CLAIM_KEY_DAYS = 90;
export const DRAFT_DAYS = 14;
