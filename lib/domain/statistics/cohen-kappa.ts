export interface Agreement {
  observedAgreement: number;
  /** What two who judge at random with the same habits would reach. */
  expectedAgreement: number;
  /** 1 full agreement, 0 no more than chance; null where chance alone agrees always. */
  kappa: number | null;
  standardError: number | null;
}

/** How much a miss by so many classes counts as agreement. */
export type AgreementWeight = "exact" | "linear" | "quadratic";

/**
 * Agreement of two who judge the same claims, beyond chance. Where nearly all claims fall into one class kappa is low for
 * all the agreement there is, so show the agreement beside it.
 *
 * Source: J. Cohen (1960, 1968); error of J. L. Fleiss, J. Cohen and B. S. Everitt, Psychological Bulletin 72 (1969) (from
 * memory; checked against the package vcd of R).
 *
 * @param table claims by the first's class (row) and the second's (column)
 * @example cohenKappa([[20, 5], [10, 15]], "exact") // kappa 0.4, standard error 0.127
 * @returns null for an empty table
 */
export function cohenKappa(table: readonly (readonly number[])[], weight: AgreementWeight): Agreement | null {
  const classes = table.length;
  if (table.some((row) => row.length !== classes)) throw new Error("cohenKappa needs a square table");
  const claims = table.flat().reduce((sum, count) => sum + count, 0);
  if (claims === 0) return null;
  const part = (row: number, column: number) => (table[row]?.[column] ?? 0) / claims;
  const places = [...table.keys()];
  const rowParts = places.map((row) => places.reduce((sum, column) => sum + part(row, column), 0));
  const columnParts = places.map((column) => places.reduce((sum, row) => sum + part(row, column), 0));
  const agrees = (row: number, column: number) => {
    if (weight === "exact" || classes === 1) return row === column ? 1 : 0;
    const distance = Math.abs(row - column) / (classes - 1);
    return 1 - (weight === "linear" ? distance : distance ** 2);
  };
  const overTable = (value: (row: number, column: number) => number) =>
    places.reduce((sum, row) => sum + places.reduce((inner, column) => inner + value(row, column), 0), 0);
  const observed = overTable((row, column) => part(row, column) * agrees(row, column));
  const expected = overTable((row, column) => (rowParts[row] ?? 0) * (columnParts[column] ?? 0) * agrees(row, column));
  const beyondChance = 1 - expected;
  if (beyondChance < 1e-12) return { observedAgreement: observed, expectedAgreement: expected, kappa: null, standardError: null };

  const kappa = (observed - expected) / beyondChance;
  const ofRow = places.map((row) => places.reduce((sum, column) => sum + (columnParts[column] ?? 0) * agrees(row, column), 0));
  const ofColumn = places.map((column) => places.reduce((sum, row) => sum + (rowParts[row] ?? 0) * agrees(row, column), 0));
  const squares = overTable((row, column) => part(row, column) * (agrees(row, column) - ((ofRow[row] ?? 0) + (ofColumn[column] ?? 0)) * (1 - kappa)) ** 2);
  const variance = (squares - (kappa - expected * (1 - kappa)) ** 2) / (claims * beyondChance ** 2);
  return { observedAgreement: observed, expectedAgreement: expected, kappa, standardError: Math.sqrt(Math.max(0, variance)) };
}
