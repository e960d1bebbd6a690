import type { Attribution, Origin } from "../diagnosis/attributions";
import type { Cause, CauseCode, Edition, FindingCode, FindingDefinition } from "../diagnosis/knowledge";
import type { Observation } from "../diagnosis/observation";
import type { OilPathPart } from "../diagnosis/oil-path";
import type { Ranking } from "../diagnosis/ranking";
import type { Remedy } from "./remedies";
import type { VerdictBasis } from "./verdict";

export interface ProposedVerdict {
  /** Null where the ranking has no leader to propose. */
  primaryCause: CauseCode | null;
  contributingCauses: readonly CauseCode[];
  basis: VerdictBasis;
}

export interface PhotoFacts {
  hasPhotos: boolean;
  /** Findings that count as a technician's look and were seen on a photo. */
  seenOnPhotos: ReadonlySet<FindingCode>;
}

/** From here on a cause beside the leader is proposed as contributing (judgement). */
const LIKELY_TOO = 0.5;

/**
 * The verdict a ranking speaks for: its leader, every other cause that is more likely there than not, and as basis the
 * most authoritative look. A technician's look on a photo is a photo.
 *
 * Example: C01 at 0.84 and C03 at 0.55 propose C01 with C03 contributing.
 */
export function proposeVerdict(ranking: Ranking | null, observations: readonly Observation[], { hasPhotos, seenOnPhotos }: PhotoFacts): ProposedVerdict {
  const [leader, ...others] = ranking?.outcome === "ranked" ? ranking.causes : [];
  const isByHand = ({ observer, finding }: Observation) => observer === "technician" && !seenOnPhotos.has(finding);
  return {
    primaryCause: leader?.code ?? null,
    contributingCauses: others.filter(({ probability }) => probability >= LIKELY_TOO).map(({ code }) => code),
    basis: observations.some(({ observer }) => observer === "bench") ? "bench" : observations.some(isByHand) ? "technician" : hasPhotos || seenOnPhotos.size > 0 ? "photo" : "customer_word",
  };
}

/**
 * Who a cause lies with, once its origin was found. Where the origin is open it decides between fitting and kit; not
 * known leaves the cause's own attribution.
 *
 * Example: a level drain whose line was cut too short at the works, origin kit: attribution kit.
 */
export function attributionOf(cause: Cause, origin: Origin | null): Attribution {
  if (!cause.originIsOpen || origin === null || origin === "not_known") return cause.attribution;
  return origin === "kit" ? "kit" : "fit";
}

/** A drain or crankcase cause nobody has looked into, with the finding that would settle it best. */
export interface OpenQuestion {
  cause: CauseCode;
  part: OilPathPart;
  name: string;
  settledBy: string;
}

const OUTSIDE_THE_UNIT: ReadonlySet<OilPathPart> = new Set(["drain", "crankcase", "vent"]);
const COSTLY: ReadonlySet<Remedy> = new Set(["repair", "replacement", "refund"]);
/** A finding speaks of a cause when it shows it at least this often. */
const SPEAKS = 0.1;

function speaksOf(definition: FindingDefinition, cause: CauseCode): number {
  if (definition.kind === "circumstance") return [...definition.shifts, ...definition.gates].some((one) => one.cause === cause) ? SPEAKS : 0;
  return definition.links.find((link) => link.cause === cause)?.strength.technician.value ?? 0;
}

/**
 * What must be looked into, or passed over knowingly, before a unit is repaired, replaced or paid back as defective:
 * oil that backs up for want of a free drain or crankcase leaks past sound seals too. A bench inspection answers for
 * all. This gates the remedy, never the probability.
 *
 * Example: a replacement for a seal ring with the run of the drain not looked at gives C01, settled by "Run of the drain".
 */
export function openBeforeRemedy(
  verdict: { attribution: Attribution; remedy: Remedy; basis: VerdictBasis },
  observations: readonly Observation[],
  edition: Edition,
): OpenQuestion[] {
  if (verdict.attribution !== "unit" || !COSTLY.has(verdict.remedy) || verdict.basis === "bench") return [];
  const looked = new Set(observations.map(({ finding }) => finding));
  const telling = edition.findings.filter(({ part }) => OUTSIDE_THE_UNIT.has(part));
  return edition.causes
    .filter(({ part, attribution }) => OUTSIDE_THE_UNIT.has(part) && attribution !== "normal")
    .flatMap(({ code, part, name }): OpenQuestion[] => {
      const speaking = telling.filter((definition) => speaksOf(definition, code) >= SPEAKS).sort((a, b) => speaksOf(b, code) - speaksOf(a, code));
      const best = speaking[0];
      return !best || speaking.some((definition) => looked.has(definition.code)) ? [] : [{ cause: code, part, name, settledBy: best.name }];
    });
}
