import type { StaffActor } from "@/lib/access/actors";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { loadSecondOpinionOfClaim } from "@/lib/operations/load-second-opinions";
import type { inZone } from "../times";
import { ATTRIBUTION_WORDS } from "../words";
import { nameOf } from "./verdict-panel";

/** What another person made of the claim without having seen the verdict, beside the verdict it was held against. */
export async function SecondOpinion({ actor, claimId, edition, zone }: { actor: StaffActor; claimId: string; edition: Edition; zone: ReturnType<typeof inZone> }) {
  const loaded = await loadSecondOpinionOfClaim(actor, claimId);
  if (!loaded.ok || !loaded.opinion) return null;
  const { primaryCause, attribution, givenBy, givenAt, verdict } = loaded.opinion;
  const isSameCause = primaryCause === verdict.primaryCause;
  const isSameAttribution = attribution === verdict.attribution;
  const heading = isSameCause && isSameAttribution ? "A second opinion, given blind, agrees" : isSameAttribution ? "A second opinion, given blind, names another cause" : "A second opinion, given blind, lays it elsewhere";
  return (
    <section className="sheet">
      <h2>{heading}</h2>
      <p>
        {givenBy.name}, {zone.time(givenAt)}: {nameOf(primaryCause, edition)}; lies with {ATTRIBUTION_WORDS[attribution]}.
      </p>
      <p className="small soft">
        {verdict.decidedBy.name} had decided: {nameOf(verdict.primaryCause, edition)}; lies with {ATTRIBUTION_WORDS[verdict.attribution]}. It changes nothing by itself.
      </p>
    </section>
  );
}
