/** What the seller does about a verdict. */
export const REMEDIES = ["advice", "part_sent", "repair", "replacement", "refund", "goodwill", "declined"] as const;
export type Remedy = (typeof REMEDIES)[number];

export const REMEDY_NAMES: Readonly<Record<Remedy, string>> = {
  advice: "advice",
  part_sent: "part sent",
  repair: "repair",
  replacement: "replacement",
  refund: "refund",
  goodwill: "goodwill",
  declined: "declined",
};
