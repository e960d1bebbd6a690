import type { Lognormal } from "./estimate";
import { restrictorFlowM3S } from "./feed-restrictor";
import { type Margin, marginOf } from "./margin";
import { propagate } from "./propagate";

/**
 * Oil that a restrictor lets through at the feed pressure against the most that a ball-bearing unit should be sent,
 * m3/s. Without a restrictor the feed fitting's own bore takes its place.
 *
 * Example: 1.0 mm at 3.1 bar passes 0.84 l/min; a bare fitting of 3 mm passes 7.5, where 2.3 are the most.
 */
export function feedMargin(boreM: Lognormal, pressurePa: Lognormal, mostM3S: Lognormal): Margin {
  const sent = propagate((bore, pressure) => restrictorFlowM3S(bore, pressure), [boreM, pressurePa]);
  return marginOf(mostM3S, sent, "needed", "restrictor: C_d A sqrt(2 dp / rho), C_d 0.65");
}
