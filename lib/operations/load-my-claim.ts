import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { findClaimForCustomer } from "@/lib/data/claims-by-customer";
import { loadEdition, loadEditionInForce } from "@/lib/data/editions";
import { listObservations, listOwnFindings } from "@/lib/data/findings";
import { findLatestRanking } from "@/lib/data/rankings";
import { database } from "@/lib/data/client";
import { vehicleName } from "@/lib/data/purchases";
import { loadSettings } from "@/lib/data/settings";
import { fuelOf } from "@/lib/domain/claims/fuel";
import { type Account, accountForCustomer } from "@/lib/domain/diagnosis/account";
import { firstAdvice } from "@/lib/domain/diagnosis/advice";
import { type Caution, stopEngineInWords } from "@/lib/domain/diagnosis/cautions";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import { doubtsAbout } from "@/lib/domain/diagnosis/explanation";
import { fittingObservations } from "@/lib/domain/diagnosis/fitting-observations";
import type { CautionCode, Edition } from "@/lib/domain/diagnosis/knowledge";
import type { OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import { stakesOf } from "@/lib/domain/diagnosis/stakes";
import { stopEngineFor } from "@/lib/domain/diagnosis/stop-engine";
import type { IntakeField } from "@/lib/domain/intake/fields";
import { CONCLUDED } from "@/lib/domain/intake/findings-from-answers";
import { shownFinding } from "@/lib/domain/intake/shown-answers";
import { sayIn } from "@/lib/messages/words";
import { type AdvisedField, withField } from "./advised-field";
import { editionFor } from "./edition-for-reader";
import { checkField } from "./read-check-answer";

export interface AskedCheck {
  id: string;
  note: string;
  field: IntakeField;
  part: OilPathPart;
  cautions: readonly CautionCode[];
}

export interface MyClaim {
  claim: Omit<NonNullable<Awaited<ReturnType<typeof findClaimForCustomer>>>, "mergedInto"> & { mergedInto: { reference: string } | null };
  seller: { name: string; phone: string; timeZone: string };
  vehicle: string | null;
  /** Null where nothing is ranked yet. */
  advice: { account: Account; checks: readonly AdvisedField[] } | null;
  /** Why the engine must stand still, or null. */
  stop: Caution | null;
  /** `isSeen` where something was found, not only looked at. */
  told: readonly { code: string; part: OilPathPart; question: string; answer: string; isSeen: boolean }[];
  asked: readonly AskedCheck[];
}

/** The customer's own claim as its private page shows it; null when it is gone. */
export async function loadMyClaim(actor: CustomerActor): Promise<MyClaim | null> {
  const claim = await findClaimForCustomer(actor.claimId);
  if (!claim) return null;
  const [inForce, seller, findings, observations, kept] = await Promise.all([
    loadEditionInForce(),
    loadSettings(),
    listOwnFindings(actor.claimId),
    listObservations(database(), actor.claimId),
    findLatestRanking(actor.claimId),
  ]);
  const fuel = fuelOf(claim);
  const say = sayIn(claim.language);
  const worded = (edition: Edition) => editionFor(editionForFuel(edition, fuel), claim);
  const edition = worded(inForce);
  const definitionOf = (code: string) => edition.findings.find((finding) => finding.code === code);
  const observer = claim.filedBy ?? "customer";
  // The advice is worded by the edition that the ranking was made with.
  const ranked = kept && worded(await loadEdition(kept.ranking.edition));
  const open = claim.checkRequests.filter(({ state }) => state === "open");
  const stop = ranked && stopEngineFor(observations, ranked);
  // The other complaint's reference is told to its own customer alone: whose it is else is nobody's business.
  const mergedInto = claim.mergedInto?.contactEmail?.toLowerCase() === claim.contactEmail?.toLowerCase() ? claim.mergedInto : null;
  return {
    claim: { ...claim, mergedInto: mergedInto && { reference: mergedInto.reference } },
    seller,
    vehicle: claim.vehicle ? vehicleName(claim.vehicle) : claim.vehicleWords,
    advice: ranked && {
      account: accountForCustomer(kept.ranking, ranked, doubtsAbout(kept.observations, ranked, kept.ranking.context), say),
      checks: firstAdvice(kept.ranking, fittingObservations(observations, ranked), ranked, { observer, stakes: stakesOf(seller) }, say)
        // What staff have asked for stands above, with its form.
        .checks.filter(({ finding }) => !open.some(({ findingCode }) => findingCode === finding))
        .flatMap((check) => withField(check, ranked, claim)),
    },
    stop: stop && stopEngineInWords(stop.reason, say),
    told: findings.flatMap((finding) => {
      const definition = definitionOf(finding.code);
      const shown = definition && finding.observer === observer && !CONCLUDED.has(finding.note) ? shownFinding(definition, finding, say) : null;
      return definition && shown !== null ? [{ code: finding.code, part: definition.part, question: definition.question, answer: shown, isSeen: finding.answer === "present" }] : [];
    }),
    asked: open.flatMap(({ id, note, findingCode }) => {
      const definition = definitionOf(findingCode);
      return definition ? [{ id, note, field: checkField(definition, claim), part: definition.part, cautions: definition.cautions }] : [];
    }),
  };
}
