import { describe, expect, test } from "vitest";
import { expectedCostOfRepairs, orderOfRepairs } from "@/lib/domain/diagnosis/repair-order";
import reference from "@/tests/reference/inference.json";

interface RepairCase {
  id: string;
  inputs: { actions: { id: string; probability: number; cost: number }[]; serviceCallCost: number | null };
  expected: { order: string[]; expectedCostOfRepair: number };
}

const cases = (reference.cases as unknown as RepairCase[]).filter(({ id }) => id.startsWith("inf-ecr-"));

describe("the order of repairs agrees with the reference", () => {
  test("which has both its cases", () => expect(cases).toHaveLength(2));

  test.each(cases.map((one) => [one.id, one] as const))("%s", (_, { inputs, expected }) => {
    const ordered = orderOfRepairs(inputs.actions.map(({ id, ...rest }) => ({ name: id, ...rest })));
    expect(ordered.map(({ name }) => name)).toEqual(expected.order);
    expect(expectedCostOfRepairs(ordered, inputs.serviceCallCost ?? 0)).toBeCloseTo(expected.expectedCostOfRepair, 9);
    // No other order is cheaper: swapping any two neighbours never helps.
    for (let place = 0; place + 1 < ordered.length; place += 1) {
      const swapped = ordered.toSpliced(place, 2, ...ordered.slice(place, place + 2).reverse());
      expect(expectedCostOfRepairs(swapped, inputs.serviceCallCost ?? 0)).toBeGreaterThanOrEqual(expected.expectedCostOfRepair - 1e-9);
    }
  });
});
