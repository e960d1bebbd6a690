/** Names the view of the queue that this browser looked at last, so that the next claim comes from it after an act too. */
export const VIEW_COOKIE = "fit-or-fault.view";
