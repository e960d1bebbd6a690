import type { NoisyOrEvidence } from "./noisy-or";

/** Places, in a list of tying findings, of those that one cause has a say in. */
export type FindingsOfCause = ReadonlyMap<number, readonly number[]>;

/** For every cause that some tying finding links, the places of those findings. */
export function findingsByCause(tying: readonly NoisyOrEvidence[], present: Float64Array): FindingsOfCause {
  const byCause = new Map<number, number[]>();
  tying.forEach(({ finding }, place) => {
    for (const list of [finding.links, finding.inhibitors ?? []]) {
      for (const { cause, strength } of list) {
        if (strength === 0 || present[cause] === 0) continue;
        const places = byCause.get(cause);
        if (!places) byCause.set(cause, [place]);
        else if (places.at(-1) !== place) places.push(place);
      }
    }
  });
  return byCause;
}

/**
 * Order in which to take the causes, so that few findings are open at a time. A finding is open from the first of its
 * causes to the last, and the work doubles with every open one; so the next cause is always the one that leaves the
 * fewest open, and of those the one whose own findings have the fewest causes still to come.
 *
 * Source: the greedy "least width" order of variable elimination (from memory). Example: findings with the causes
 * (1, 2), (2, 3) and (3, 4) are taken in the order 1, 2, 3, 4 with one or two open at a time; in the order
 * 1, 3, 2, 4 it would be three.
 */
export function orderOfCauses(byCause: FindingsOfCause, findings: number): number[] {
  const causesToCome = new Array<number>(findings).fill(0);
  for (const places of byCause.values()) for (const place of places) causesToCome[place] = (causesToCome[place] ?? 0) + 1;
  const isOpen = new Array<boolean>(findings).fill(false);
  const rest = new Map(byCause);
  const order: number[] = [];
  while (rest.size > 0) {
    let best = -1;
    let leastOpened = Number.POSITIVE_INFINITY;
    let leastToCome = Number.POSITIVE_INFINITY;
    for (const [cause, places] of rest) {
      let opened = 0;
      let toCome = 0;
      for (const place of places) {
        const count = causesToCome[place] ?? 0;
        if (!isOpen[place]) opened += 1;
        if (count === 1) opened -= 1;
        toCome += count;
      }
      if (opened < leastOpened || (opened === leastOpened && toCome < leastToCome)) {
        best = cause;
        leastOpened = opened;
        leastToCome = toCome;
      }
    }
    for (const place of rest.get(best) ?? []) {
      isOpen[place] = true;
      causesToCome[place] = (causesToCome[place] ?? 0) - 1;
    }
    rest.delete(best);
    order.push(best);
  }
  return order;
}
