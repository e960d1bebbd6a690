import type { Attribution } from "../diagnosis/attributions";
import type { Ranking } from "../diagnosis/ranking";
import type { Remedy } from "./remedies";

/** Why a verdict waits for a second person before it goes out. */
export const SECOND_PERSON_GROUNDS = ["above_value", "declined_against_ranking"] as const;
export type SecondPersonGround = (typeof SECOND_PERSON_GROUNDS)[number];

export const SECOND_PERSON_WORDS: Readonly<Record<SecondPersonGround, string>> = {
  above_value: "it costs more than one person decides alone",
  declined_against_ranking: "it declines, though the ranking lays it to what was sent",
};

/** What the seller sent: the unit, the kit, or the way it came. */
const OURS: ReadonlySet<Attribution> = new Set(["unit", "kit", "transit"]);

/**
 * Whether a verdict waits for a second person, and why: its cost to the seller is above the set value, or it declines
 * though the ranking's leader lies with what the seller sent. Empty where one person is enough.
 *
 * Example: at a value of 500, a replacement of 700 waits; one of 500 does not.
 */
export function secondPersonGrounds({ remedy, cost }: { remedy: Remedy; cost: number }, ranking: Ranking | null, above: number): SecondPersonGround[] {
  const leader = ranking?.outcome === "ranked" ? ranking.causes[0] : undefined;
  return [
    ...(cost > above ? (["above_value"] as const) : []),
    ...(remedy === "declined" && leader && OURS.has(leader.attribution) ? (["declined_against_ranking"] as const) : []),
  ];
}
