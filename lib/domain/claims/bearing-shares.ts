/** Who bears what a remedy comes to. */
export interface BearingShares {
  sellerMinor: number;
  customerMinor: number;
  supplierMinor: number;
}

/**
 * An amount shared out by whole percents, in the smallest unit, so that the shares add up to it exactly: each is cut
 * down, and what is left goes one by one to whose share was cut most, the seller first of equals. The customer bears
 * what seller and supplier do not.
 *
 * Source: method of largest remainders (Hamilton, from memory). Example: 101 at 50 and 25 per cent are 51, 25 and 25.
 */
export function shareOut(amountMinor: number, { sellerPercent, supplierPercent }: { sellerPercent: number; supplierPercent: number }): BearingShares {
  const customerPercent = 100 - sellerPercent - supplierPercent;
  const percents = [sellerPercent, customerPercent, supplierPercent];
  if (!Number.isInteger(amountMinor) || percents.some((percent) => !Number.isInteger(percent) || percent < 0)) throw new Error("shareOut needs a whole amount and whole percents that make no more than 100");
  const cut = percents.map((percent) => Math.floor((amountMinor * percent) / 100));
  const lost = percents.map((percent, who) => amountMinor * percent - (cut[who] ?? 0) * 100);
  const left = amountMinor - cut.reduce((sum, share) => sum + share, 0);
  const next = lost.map((_, who) => who).sort((a, b) => (lost[b] ?? 0) - (lost[a] ?? 0) || a - b).slice(0, left);
  const [sellerMinor = 0, customerMinor = 0, supplierMinor = 0] = cut.map((share, who) => share + Number(next.includes(who)));
  return { sellerMinor, customerMinor, supplierMinor };
}
