import type { Interval } from "../statistics/poisson-interval";
import { wilsonInterval } from "../statistics/wilson-interval";
import { CONFIDENCE, type ForecastScores, forecastScores, type ScoredVerdict, scoresOfVerdict } from "./forecast-scores";

/** What was shown at first contact, beside the verdict that came later. */
export interface ShownVerdict extends ScoredVerdict {
  /** Month of filing, 2026-03. */
  month: string;
  edition: number;
}

export interface MonthShown {
  month: string;
  editions: readonly number[];
  verdicts: number;
  /** Mean probability shown for the cause that led. */
  shownForLeader: number;
  /** Share of verdicts that the leader was part of, with its interval. */
  leaderWasThere: Interval;
  /** Share whose primary cause led. */
  led: number;
  brier: number;
  logLoss: number;
}

/** Months that are told one by one: the latest. */
const MOST_MONTHS = 12;

export interface ShownCalibration {
  months: readonly MonthShown[];
  /** Of what the edition in force has shown; null before any of it was decided. */
  inForce: ForecastScores | null;
}

/**
 * Calibration as it was lived: the probabilities that were shown when a claim was filed against the verdict that came
 * later, month by month of filing and, for the edition in force, over its whole time. Out of sample by nature: nobody
 * knew the verdict. Claims that are not decided yet are not in it, so that the newest months hold the quick ones.
 */
export function shownCalibration(shown: readonly ShownVerdict[], inForce: number): ShownCalibration {
  const months = [...new Set(shown.map(({ month }) => month))].sort().slice(-MOST_MONTHS);
  const ofEdition = shown.filter(({ edition }) => edition === inForce);
  return {
    months: months.map((month) => monthShown(month, shown.filter((one) => one.month === month))),
    inForce: ofEdition.length > 0 ? forecastScores(ofEdition, null) : null,
  };
}

function monthShown(month: string, verdicts: readonly ShownVerdict[]): MonthShown {
  const scores = verdicts.map(scoresOfVerdict);
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const leaders = verdicts.map(({ causes, probabilities, present }) => {
    const probability = Math.max(...probabilities);
    return { probability, wasThere: present.has(causes[probabilities.indexOf(probability)] ?? "") };
  });
  return {
    month,
    editions: [...new Set(verdicts.map(({ edition }) => edition))].sort((a, b) => a - b),
    verdicts: verdicts.length,
    shownForLeader: mean(leaders.map(({ probability }) => probability)),
    leaderWasThere: wilsonInterval(leaders.filter(({ wasThere }) => wasThere).length, verdicts.length, CONFIDENCE),
    led: mean(scores.map(({ led }) => led)),
    brier: mean(scores.map(({ brier }) => brier)),
    logLoss: mean(scores.map(({ logLoss }) => logLoss)),
  };
}
