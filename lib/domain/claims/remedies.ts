/** What the seller does about a verdict. */
export const REMEDIES = ["advice", "part_sent", "repair", "replacement", "refund", "goodwill", "declined"] as const;
export type Remedy = (typeof REMEDIES)[number];

/** Whether a remedy is itself money to the customer, so that it is not given without an amount. */
export const paysMoney = (remedy: Remedy): boolean => remedy === "refund" || remedy === "goodwill";

export const REMEDY_NAMES: Readonly<Record<Remedy, string>> = {
  advice: "advice",
  part_sent: "part sent",
  repair: "repair",
  replacement: "replacement",
  refund: "refund",
  goodwill: "goodwill",
  declined: "declined",
};
