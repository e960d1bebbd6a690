import type { NoisyOrEvidence } from "./noisy-or";

/** The say that one cause has in one of the tying findings, named by its place in their list. */
export interface Say {
  finding: number;
  /** Chance that the cause switches it on, and that it suppresses it. */
  strength: number;
  inhibitor: number;
}

/** A cause that some tying finding links, with all its says. */
export interface TiedCause {
  cause: number;
  says: Say[];
}

/** Chance that one of two independent things happens. */
const either = (one: number, other: number) => one + (1 - one) * other;

/** The causes that tying findings link, possible ones only. */
export function tiedCauses(tying: readonly NoisyOrEvidence[], present: Float64Array): TiedCause[] {
  const saysOf = Array.from(present, (): Say[] => []);
  const sayOf = (cause: number, finding: number): Say => {
    const last = saysOf[cause]?.at(-1);
    if (last?.finding === finding) return last;
    const say = { finding, strength: 0, inhibitor: 0 };
    saysOf[cause]?.push(say);
    return say;
  };
  for (let place = 0; place < tying.length; place++) {
    const finding = tying[place]?.finding;
    for (const { cause, strength } of finding?.links ?? []) {
      if (strength === 0 || present[cause] === 0) continue;
      const say = sayOf(cause, place);
      say.strength = either(say.strength, strength);
    }
    for (const { cause, strength } of finding?.inhibitors ?? []) {
      if (strength === 0 || present[cause] === 0) continue;
      const say = sayOf(cause, place);
      say.inhibitor = either(say.inhibitor, strength);
    }
  }
  return saysOf.flatMap((says, cause) => (says.length > 0 ? [{ cause, says }] : []));
}

/** How many causes have a say in each finding. */
export function causesOfEach(causes: readonly TiedCause[], findings: number): number[] {
  const counts = new Array<number>(findings).fill(0);
  for (const { says } of causes) for (const { finding } of says) counts[finding] = (counts[finding] ?? 0) + 1;
  return counts;
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
export function orderOfCauses(causes: readonly TiedCause[], findings: number): TiedCause[] {
  const toCome = causesOfEach(causes, findings);
  const isOpen = new Array<boolean>(findings).fill(false);
  const rest = [...causes];
  const order: TiedCause[] = [];
  while (rest.length > 0) {
    let best = 0;
    let leastOpened = Number.POSITIVE_INFINITY;
    let leastToCome = Number.POSITIVE_INFINITY;
    for (let place = 0; place < rest.length; place++) {
      let opened = 0;
      let stillToCome = 0;
      for (const { finding } of rest[place]?.says ?? []) {
        const count = toCome[finding] ?? 0;
        if (!isOpen[finding]) opened += 1;
        if (count === 1) opened -= 1;
        stillToCome += count;
      }
      if (opened < leastOpened || (opened === leastOpened && stillToCome < leastToCome)) {
        best = place;
        leastOpened = opened;
        leastToCome = stillToCome;
      }
    }
    const [next] = rest.splice(best, 1);
    if (!next) break;
    for (const { finding } of next.says) {
      isOpen[finding] = true;
      toCome[finding] = (toCome[finding] ?? 0) - 1;
    }
    order.push(next);
  }
  return order;
}
