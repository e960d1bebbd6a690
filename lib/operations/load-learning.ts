import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { type EditionRow, findPromotedLast, listEditions, loadEdition } from "@/lib/data/editions";
import { findBacktest, findLastLearningAct, type LearningAct } from "@/lib/data/learning-runs";
import { findReportCatalogue } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import { countTrainingVerdicts, listShownForecasts } from "@/lib/data/training-verdicts";
import { may } from "@/lib/domain/claims/permissions";
import { type EditionState, editionState } from "@/lib/domain/diagnosis/editions";
import type { ExperienceRow } from "@/lib/domain/diagnosis/knowledge";
import type { BacktestReport } from "@/lib/domain/learning/backtest";
import { type MovedFigure, movedFigures } from "@/lib/domain/learning/moved-figures";
import { type ShownCalibration, type ShownVerdict, shownCalibration } from "@/lib/domain/learning/shown-calibration";
import { CONFIRMATION_WEIGHTS, CONFIRMATIONS, type Confirmation } from "@/lib/domain/learning/training-example";
import { refuse, type Refusal } from "./refusal";

/** An experience row in the names of the catalogue. */
export interface NamedExperience {
  kit: string;
  vehicle: string | null;
  cause: string;
  oddsRatio: number;
  why: string;
}

export interface LearnedProposal {
  edition: Pick<EditionRow, "number" | "name" | "createdAt" | "proposedBy">;
  state: EditionState;
  against: number;
  report: BacktestReport;
  /** Those that move the farthest. */
  moved: readonly MovedFigure[];
  movedInAll: number;
  /** The rows farthest from the usual odds. */
  experience: readonly NamedExperience[];
  experienceInAll: number;
}

export interface LearningSheet {
  ok: true;
  inForce: number;
  mayLearn: boolean;
  timeZone: string;
  kinds: readonly { confirmation: Confirmation; verdicts: number; weight: number }[];
  shown: ShownCalibration;
  lastAct: LearningAct | null;
  /** The newest edition that was learned, with its backtest. */
  proposal: LearnedProposal | null;
}

/** Verdicts behind the calibration as it was shown: the newest. */
const MOST_SHOWN = 1000;
const MOST_MOVED = 15;
const MOST_EXPERIENCE = 15;

/** What there is to learn from, how the edition in force has done, and the newest learned proposal with its backtest. */
export async function loadLearning(actor: StaffActor): Promise<LearningSheet | Refusal> {
  const refused = await refuse(actor, "see the knowledge");
  if (refused) return refused;
  const [{ number: inForce }, counted, forecasts, lastAct, editions, { timeZone }] = await Promise.all([
    findPromotedLast(),
    countTrainingVerdicts(),
    listShownForecasts(MOST_SHOWN),
    findLastLearningAct(),
    listEditions(),
    loadSettings(),
  ]);
  const shown = forecasts.map(
    ({ month, edition, primary, contributing, attribution, unitDefective, probabilities }): ShownVerdict => ({
      month,
      edition,
      causes: Object.keys(probabilities),
      probabilities: Object.values(probabilities),
      unitDefective,
      primary,
      present: new Set([primary, ...contributing]),
      isUnit: attribution === "unit",
    }),
  );
  return {
    ok: true,
    inForce,
    timeZone,
    mayLearn: may(actor.role, "change the knowledge"),
    kinds: CONFIRMATIONS.map((confirmation) => ({
      confirmation,
      verdicts: counted.find((one) => one.confirmation === confirmation)?.verdicts ?? 0,
      weight: CONFIRMATION_WEIGHTS[confirmation],
    })),
    shown: shownCalibration(shown.filter(({ causes, primary }) => causes.includes(primary)), inForce),
    lastAct,
    proposal: await proposalOf(editions, inForce),
  };
}

async function proposalOf(editions: readonly EditionRow[], inForce: number): Promise<LearnedProposal | null> {
  const row = editions.find(({ origin, discardedAt }) => origin === "learned" && discardedAt === null);
  const backtest = row && (await findBacktest(row.number));
  if (!row || !backtest) return null;
  const [edition, before] = await Promise.all([loadEdition(row.number), loadEdition(backtest.againstNumber)]);
  const moved = movedFigures(before, edition);
  const causeName = (code: string) => edition.causes.find((cause) => cause.code === code)?.name ?? code;
  return {
    edition: row,
    state: editionState(row, inForce),
    against: backtest.againstNumber,
    report: backtest.report,
    moved: moved.slice(0, MOST_MOVED),
    movedInAll: moved.length,
    experience: (await named(edition.experience, causeName)).slice(0, MOST_EXPERIENCE),
    experienceInAll: edition.experience.length,
  };
}

async function named(rows: readonly ExperienceRow[], causeName: (code: string) => string): Promise<NamedExperience[]> {
  if (rows.length === 0) return [];
  const { kits, vehicles } = await findReportCatalogue();
  const kitName = (id: string) => kits.find((kit) => kit.id === id)?.code ?? "a kit no longer sold";
  const vehicleName = (id: string) => {
    const vehicle = vehicles.find((one) => one.id === id);
    return vehicle ? `${vehicle.make} ${vehicle.model} ${vehicle.engine}` : "a vehicle no longer listed";
  };
  return rows
    .map(({ kit, vehicle, cause, oddsRatio }) => ({
      kit: kitName(kit),
      vehicle: vehicle && vehicleName(vehicle),
      cause: causeName(cause),
      oddsRatio: oddsRatio.value,
      why: oddsRatio.provenance.kind === "learned" ? oddsRatio.provenance.note : "typed by hand",
    }))
    .sort((a, b) => Math.abs(Math.log(b.oddsRatio)) - Math.abs(Math.log(a.oddsRatio)));
}
