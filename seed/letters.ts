import { group } from "d3-array";
import type { Language } from "@/lib/domain/claims/languages";
import { composeLetter } from "@/lib/domain/claims/letter";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { Attribution, Origin } from "@/lib/domain/diagnosis/attributions";
import { editionForFuel } from "@/lib/domain/diagnosis/edition-for-fuel";
import { editionInLanguage } from "@/lib/domain/diagnosis/edition-in-language";
import type { CauseCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";
import { shownFinding } from "@/lib/domain/intake/shown-answers";
import { sayIn } from "@/lib/messages/words";
import type { World } from "./world";
import { SELLER } from "./seller";
import type { Row, Value } from "./tables";

/** What staff of the demo write into a letter where one has to be explained. */
const EXPLANATIONS: Readonly<Record<Language, Readonly<Record<"declined" | "same" | "other", string>>>> = {
  en: {
    declined: "What you and your garage found shows that it does not come from the unit or from a part of the kit. That is why the warranty does not cover it.",
    same: "We have looked at all of it once more, together with what you sent since. It leads to the same cause.",
    other: "Thank you for not letting it rest. Together with what you sent since, it is another cause.",
  },
  de: {
    declined: "Was Sie und Ihre Werkstatt gefunden haben, zeigt: Es kommt nicht vom Lader und nicht von einem Teil des Einbausatzes. Darum gilt die Garantie dafür nicht.",
    same: "Wir haben uns alles noch einmal angesehen, mit dem, was Sie seitdem geschickt haben. Es führt zur selben Ursache.",
    other: "Danke, dass Sie nachgehakt haben. Mit dem, was Sie seitdem geschickt haben, ist es eine andere Ursache.",
  },
};

/** Writes the letter of every verdict, and of those that wait for a second person, as the product itself words it. */
export function writeLetters({ tables, edition }: World): void {
  const byId = (table: Parameters<typeof tables.rows>[0]) => new Map(tables.rows(table).map((row) => [row.id, row]));
  const [claims, kits, revisions, vehicles, rankings] = [byId("claim"), byId("kit"), byId("kit_revision"), byId("vehicle"), byId("ranking")];
  const findings = group(tables.rows("finding"), ({ claim_id }) => claim_id);
  const verdicts = group(tables.rows("verdict"), ({ claim_id }) => claim_id);

  const letterOf = (ruling: Row, at: string): { letter: string; explanation: string } => {
    const claim = claims.get(ruling.claim_id ?? null);
    if (!claim) throw new Error("writeLetters needs verdicts about claims that are there");
    const language = (claim.language ?? "en") as Language;
    const say = sayIn(language);
    const fuel = vehicles.get(claim.vehicle_id ?? null)?.fuel;
    const worded = editionInLanguage(editionForFuel(edition, fuel === "diesel" || fuel === "petrol" ? fuel : null), language);
    const causeOf = (code: Value) => {
      const cause = worded.causes.find((one) => one.code === code);
      if (!cause) throw new Error(`writeLetters needs a cause of the edition, not ${String(code)}`);
      return cause;
    };
    const before = (verdicts.get(ruling.claim_id ?? null) ?? []).findLast(({ superseded_at }) => typeof superseded_at === "string" && superseded_at <= at);
    const texts = EXPLANATIONS[language];
    const told = language === "en" ? String(ruling.reason) : "";
    const explanation = [
      ...(before ? [before.primary_cause === ruling.primary_cause ? texts.same : texts.other] : []),
      told || (ruling.remedy === "declined" ? texts.declined : ""),
    ].filter(Boolean).join(" ");
    const ranking = rankings.get(ruling.ranking_id ?? null)?.result as unknown as Ranking | undefined;
    const letter = composeLetter(
      {
        name: String(claim.contact_name),
        reference: String(claim.reference),
        about: kits.get(revisions.get(claim.kit_revision_id ?? null)?.kit_id ?? null)?.name as string | undefined ?? null,
        findings: (findings.get(claim.id ?? null) ?? []).flatMap((finding) => {
          if (String(finding.observed_at) > at || (typeof finding.replaced_at === "string" && finding.replaced_at <= at)) return [];
          const definition = worded.findings.find(({ code }) => code === finding.code);
          const answer = definition ? shownFinding(definition, keptFinding(finding), say) : null;
          return definition && answer !== null ? [{ part: definition.part, name: definition.name, answer, observer: finding.observer as Observer }] : [];
        }),
        primary: causeOf(ruling.primary_cause ?? null),
        contributing: (ruling.contributing_causes as readonly CauseCode[]).map(causeOf),
        attribution: ruling.attribution as Attribution,
        origin: ruling.origin as Origin | null,
        remedy: ruling.remedy as Remedy,
        promise: {
          promisedMinor: ruling.promised_minor as number | null,
          promisedCurrency: ruling.promised_currency as string | null,
          sellerPercent: Number(ruling.seller_percent),
          coreDepositMinor: ruling.core_deposit_minor as number | null,
          paysCarriage: ruling.pays_carriage === true,
        },
        objection: before ? String(before.objection) : null,
        stop: (claim.stops_engine === true && ranking?.stopEngine?.reason) || null,
        explanation,
        seller: SELLER,
      },
      worded,
      say,
    );
    return { letter, explanation };
  };

  tables.revise("verdict", (verdict) => ({ letter: letterOf(verdict, String(verdict.decided_at)).letter }));
  tables.revise("verdict_proposal", (proposal) => ({ ...letterOf(proposal, String(proposal.proposed_at)) }));
}

/** The columns are as `ClaimStory.see` has written them. */
const keptFinding = ({ answer, measured, typed_value, typed_unit }: Row) => ({
  answer: answer as string | null,
  measured: measured as number | null,
  typedValue: typed_value as string | null,
  typedUnit: typed_unit as string | null,
});
