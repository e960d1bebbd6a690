/** One thing that can be put right, when only one is wrong: the chance that it is this one, and what it costs to do. */
export interface Repair {
  name: string;
  probability: number;
  cost: number;
}

/**
 * Order of repairs: what is likeliest for its cost comes first. It is the cheapest order where one thing alone is wrong,
 * each repair is sure and costs the same at any place in the order; the plan of checks needs none of the three, and is
 * held against it.
 *
 * Source: Kadane and Simon (1977); Kalagnanam and Henrion (1990), from memory. Example: 0.25 for 4 comes before 0.3
 * for 12.
 */
export function orderOfRepairs<R extends Repair>(repairs: readonly R[]): R[] {
  return [...repairs].sort((a, b) => b.probability / b.cost - a.probability / a.cost);
}

/**
 * Expected cost of repairs in this order: each is paid for where none before it has helped; what none of them puts right
 * pays the service call.
 *
 * Source: Heckerman, Breese and Rommelse (1995), from memory. Example: 0.25 for 4, then 0.75 for 12:
 * 4 + 0.75 * 12 = 13.
 */
export function expectedCostOfRepairs(repairs: readonly Repair[], serviceCall = 0): number {
  let left = 1;
  let cost = 0;
  for (const repair of repairs) {
    cost += left * repair.cost;
    left -= repair.probability;
  }
  return cost + Math.max(0, left) * serviceCall;
}
