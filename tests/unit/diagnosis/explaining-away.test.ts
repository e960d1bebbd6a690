import { describe, expect, it } from "vitest";
import { EXPLAINED_AWAY, oddsRatioOf } from "./explaining-away";

describe("what is explained away comes out in the right direction without figures of its own", () => {
  it.each(EXPLAINED_AWAY)("$finding $state moves $cause as the table does ($tableSays)", (row) => {
    const moved = oddsRatioOf(row);
    if (row.tableSays < 1) expect(moved).toBeLessThan(0.99);
    else expect(moved).toBeGreaterThan(1.01);
  });
});
