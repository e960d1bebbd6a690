import { createHash } from "node:crypto";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";
import { attributionOf } from "@/lib/domain/claims/proposed-verdict";
import { DAY, isoInstant } from "./calendar";
import type { World } from "./world";
import { SELLER } from "./seller";
import type { Row } from "./tables";

/** Two at one desk name the same cause about so often when neither knows what the other said. */
const SAME_CAUSE = 0.8;
/** Whether a drain was cut wrong by the fitter or came so from the works is seen differently now and then. */
const SAME_ORIGIN = 0.93;
/** The newest of the sample still wait. */
const WAITS_FOR = 6 * DAY;

/** The blind sample of the demo: what a second person made of a claim that another had decided. */
export function giveSecondOpinions({ random, tables, now, edition, staff }: World): void {
  const rankings = new Map(tables.rows("ranking").map((row) => [row.id, row.result as unknown as Ranking]));
  for (const verdict of tables.rows("verdict")) {
    const decidedAt = Date.parse(String(verdict.decided_at));
    if (verdict.superseded_at !== null || !isInSample(String(verdict.claim_id)) || now - decidedAt < WAITS_FOR) continue;
    const givenBy = staff.support.find((person) => !hasDecided(tables.rows("verdict"), verdict, person));
    if (!givenBy) continue;
    const ranking = rankings.get(verdict.ranking_id ?? null);
    const others = (ranking?.outcome === "ranked" ? ranking.causes : []).slice(0, 4).filter(({ code }) => code !== verdict.primary_cause);
    const isSame = others.length === 0 || random.chance(SAME_CAUSE);
    const code = isSame ? verdict.primary_cause : random.pick(others).code;
    const cause = edition.causes.find((one) => one.code === code);
    if (!cause) throw new Error(`the edition in force has no cause ${String(code)}`);
    const origin = random.chance(SAME_ORIGIN) ? verdict.origin : verdict.origin === "kit" ? "fitter" : "kit";
    const attribution = attributionOf(cause, origin === "kit" || origin === "fitter" ? origin : null);
    const at = isoInstant(Math.min(now, decidedAt + random.between(0.5, 5.5) * DAY));
    tables.add("second_opinion", { id: random.uuid(), claim_id: verdict.claim_id ?? null, verdict_id: verdict.id ?? null, primary_cause: cause.code, attribution, given_by_id: givenBy, given_at: at });
    tables.add("audit_entry", { at, actor_kind: "staff", person_id: givenBy, claim_id: verdict.claim_id ?? null, action: "give_second_opinion", detail: { primaryCause: cause.code, attribution } });
  }
}

/** The rule by which the desk is asked. */
function isInSample(claimId: string): boolean {
  return Number.parseInt(createHash("md5").update(claimId).digest("hex").slice(0, 8), 16) < SELLER.second_opinion_share * 42949672.96;
}

function hasDecided(verdicts: readonly Row[], { claim_id }: Row, person: string): boolean {
  return verdicts.some((verdict) => verdict.claim_id === claim_id && verdict.decided_by_id === person);
}
