/**
 * Fits the base figures of edition 1, once: `npx tsx tests/bench/fit-base-figures.ts` prints the table that stands in
 * edition-1-base-figures.ts. Each group of causes has one unknown, its size; how it is divided among its causes is
 * judgement and stands here. The sizes are moved until the judged shares among complaints come out as nearly as they
 * can, in logarithms, and then scaled together to the rate of complaints.
 */
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { CauseCode, Edition } from "@/lib/domain/diagnosis/knowledge";
import { complaintRate, GROUPS, type Group, JUDGED_SHARES, sharesOf } from "@/tests/unit/diagnosis/shares-among-complaints";

const COMPLAINTS_PER_FITTED_UNIT = 0.025;

/** How each group is divided among its causes (judgement). */
const WITHIN_GROUP: Readonly<Record<CauseCode, number>> = {
  C01: 0.45, C02: 0.25, C03: 0.2, C04: 0.1,
  C05: 1,
  C06: 0.42, C07: 0.16, C08: 0.42,
  C09: 0.5, C10: 0.5,
  C11: 1,
  C12: 0.4, C13: 0.27, C14: 0.33,
  C15: 0.52, C16: 0.32, C17: 0.16,
  C18: 0.18, C19: 0.1, C20: 0.72,
  C21: 1,
};
/** Not among the judged shares: set, not fitted (judgement). */
const SET: Readonly<Record<CauseCode, number>> = { C22: 0.0002, C23: 0.0008 };

const groups = Object.keys(GROUPS) as Group[];
const sizes = new Map<Group, number>(groups.map((group) => [group, 0.003]));

function withSizes(): Edition {
  const groupOf = (code: CauseCode) => groups.find((group) => (GROUPS[group] as readonly string[]).includes(code));
  const causes = edition1.causes.map((cause) => {
    const group = groupOf(cause.code);
    const value = group ? (sizes.get(group) ?? 0) * (WITHIN_GROUP[cause.code] ?? 0) : (SET[cause.code] ?? 0);
    return { ...cause, base: { ...cause.base, value } };
  });
  return { ...edition1, causes };
}

for (let round = 0; round < 400; round++) {
  const edition = withSizes();
  const modelled = JUDGED_SHARES.map(({ observations }) => sharesOf(observations, edition));
  for (const group of groups) {
    const misses = JUDGED_SHARES.map(({ shares }, i) => Math.log(shares[group] / (modelled[i]?.[group] ?? 1)));
    // Half-way between the mean miss and the middle of the worst two: near the least worst factor.
    const middle = (Math.max(...misses) + Math.min(...misses)) / 2;
    sizes.set(group, (sizes.get(group) ?? 0) * Math.exp(0.3 * middle));
  }
  const scale = COMPLAINTS_PER_FITTED_UNIT / complaintRate(withSizes());
  for (const group of groups) sizes.set(group, (sizes.get(group) ?? 0) * scale ** 0.5);
}

const fitted = withSizes();
for (const { code, base } of fitted.causes) console.log(`  ${code}: ${Number(base.value.toPrecision(3))},`);
console.log("complaint rate", complaintRate(fitted).toFixed(4));
for (const { place, observations, shares } of JUDGED_SHARES) {
  const modelled = sharesOf(observations, fitted);
  console.log(place, groups.map((group) => `${group} ${modelled[group].toFixed(3)}/${shares[group]} x${(modelled[group] / shares[group]).toFixed(2)}`).join("  "));
}
