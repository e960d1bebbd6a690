/**
 * Agreement of several who judge the same claims, beyond chance.
 *
 * Source: J. L. Fleiss, Psychological Bulletin 76 (1971) (from memory; checked in R).
 *
 * @param counts for each claim how many chose each class; as many judges for every claim, at least 2
 * @returns null for no claims, and a null kappa where all chose one class throughout
 * @throws when claims have different numbers of judges
 */
export function fleissKappa(counts: readonly (readonly number[])[]): { meanAgreement: number; chanceAgreement: number; kappa: number | null } | null {
  const [first] = counts;
  if (!first) return null;
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const judges = sum(first);
  if (judges < 2 || counts.some((row) => sum(row) !== judges)) throw new Error("fleissKappa needs the same number of judges, at least 2, for every claim");
  const meanAgreement = sum(counts.map((row) => (sum(row.map((count) => count ** 2)) - judges) / (judges * (judges - 1)))) / counts.length;
  const chanceAgreement = sum(first.map((_, column) => (sum(counts.map((row) => row[column] ?? 0)) / (counts.length * judges)) ** 2));
  const kappa = 1 - chanceAgreement < 1e-12 ? null : (meanAgreement - chanceAgreement) / (1 - chanceAgreement);
  return { meanAgreement, chanceAgreement, kappa };
}
