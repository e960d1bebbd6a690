import { DAY, HOUR, type Instant, isoInstant } from "./calendar";
import type { World } from "./world";
import type { Row, Value } from "./tables";

/** Only of late: older claims were worked on before the desk kept any. */
const LATE = 45 * DAY;

const MARK_WORDS: Readonly<Record<string, readonly string[]>> = {
  drain: ["runs level here", "dips below the inlet", "clamp bites into the hose", "fall starts here"],
  compressor: ["oil stands here", "film only, no pool"],
  turbine: ["wet from inside", "burnt oil at the joint"],
  vent: ["element still in", "goes to the open air"],
  intake: ["filter cone, small", "dirt on this side"],
  unit: ["serial plate", "crack at the flange"],
};

const NOTES = [
  "Garage rang: they did not prime it before the first start. Nobody wrote it down on the job card.",
  "Photo 1 is taken from above, so the fall cannot be judged from it. Asked for one from the side.",
  "Second kit this garage fitted this month; the first was fine.",
  "Customer needs the van for work on Monday. Decide before Friday if at all possible.",
  "Spoke on the telephone, very friendly. Will measure the hose tonight.",
  "Looks like the old revision of the bracket. Compare with the drawing before deciding.",
];

const LINK_WORDS = ["same customer, another vehicle", "fitted by the same garage", "same order"];

/**
 * What the desk left on its claims of late, as it works: marks on photos, notes for itself, and links between claims of one
 * customer; each dated after the claim was filed, with its line in the story.
 */
export function leaveDeskTraces({ random, tables, now, staff }: World): void {
  const late = tables.rows("claim").filter(({ filed_at }) => filed_at !== null && now - Date.parse(String(filed_at)) < LATE);
  const claims = new Map(late.map((claim) => [claim.id, claim]));
  const after = (claim: Row): Instant => Math.min(now, Date.parse(String(claim.filed_at)) + random.between(0.5, 30) * HOUR);
  const tell = (claimId: Value, at: Instant, person: string, action: string, detail: Row = {}) =>
    tables.add("audit_entry", { at: isoInstant(at), actor_kind: "staff", person_id: person, claim_id: claimId, action, detail });

  for (const { id: photoId, claim_id, subject } of tables.rows("photo")) {
    const claim = claims.get(claim_id ?? null);
    const words = MARK_WORDS[String(subject)];
    if (!claim || !words || claim.stage === "filed" || !random.chance(0.5)) continue;
    for (const [index, word] of (random.chance(0.4) ? words.slice(0, 2) : [random.pick(words)]).entries()) {
      const [at, person] = [after(claim), random.pick(staff.support)];
      tables.add("photo_mark", {
        id: random.uuid(),
        photo_id: photoId ?? null,
        number: index + 1,
        x: 0.3 + 0.25 * index + random.between(0, 0.15),
        y: random.between(0.35, 0.65),
        word,
        made_by_id: person,
        made_at: isoInstant(at),
        removed_by_id: null,
        removed_at: null,
      });
      tell(claim.id ?? null, at, person, "mark_photo", { photoId: photoId ?? null, number: index + 1 });
    }
  }

  for (const claim of late) {
    if (!random.chance(0.2)) continue;
    const [at, person] = [after(claim), random.pick(staff.support)];
    tables.add("desk_note", { id: random.uuid(), claim_id: claim.id ?? null, person_id: person, body: random.pick(NOTES), created_at: isoInstant(at) });
    tell(claim.id ?? null, at, person, "write_note");
  }

  for (const [index, claim] of late.entries()) {
    const other = late.find((one, place) => place > index && one.contact_email === claim.contact_email && one.stage !== "merged" && claim.stage !== "merged");
    if (!other || !random.chance(0.6)) continue;
    const [lesser, greater] = String(claim.id) < String(other.id) ? [claim, other] : [other, claim];
    const [at, person] = [after(other), random.pick(staff.support)];
    tables.add("linked_claim", { claim_id: lesser.id ?? null, other_id: greater.id ?? null, why: random.pick(LINK_WORDS), linked_by_id: person, linked_at: isoInstant(at) });
    tell(claim.id ?? null, at, person, "link_claims", { other: other.reference ?? null });
    tell(other.id ?? null, at, person, "link_claims", { other: claim.reference ?? null });
  }
}
