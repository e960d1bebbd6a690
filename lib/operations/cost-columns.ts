import "server-only";
import { fromMinor } from "@/lib/domain/claims/money";
import { addCosts, type Cost } from "@/lib/domain/reporting/cohorts";

type CostColumn = `cost:${string}`;

/** Costs as columns of a file, one for each currency that occurs, so that each holds numbers. Part of the operations that write files. */
export function costColumns(all: readonly (readonly Cost[])[]): { names: Readonly<Record<CostColumn, string>>; of: (costs: readonly Cost[]) => Readonly<Record<CostColumn, number>> } {
  const currencies = [...new Set(all.flatMap((costs) => costs.map(({ currency }) => currency)))].sort();
  const columns = <T>(of: (currency: string) => T) => Object.fromEntries(currencies.map((currency) => [`cost:${currency}`, of(currency)])) as Record<CostColumn, T>;
  return {
    names: columns((currency) => `cost so far, ${currency}`),
    of: (costs) => {
      const sums = addCosts(costs);
      return columns((currency) => fromMinor(sums.find((sum) => sum.currency === currency)?.amountMinor ?? 0, currency));
    },
  };
}
