/** Why a parcel is not the unit of a return. */
export const PARCEL_REASONS = ["no_number", "second_parcel", "wrong_part", "other_unit"] as const;
export type ParcelReason = (typeof PARCEL_REASONS)[number];

export const PARCEL_REASON_NAMES: Readonly<Record<ParcelReason, string>> = {
  no_number: "came without a number",
  second_parcel: "came second under one number",
  wrong_part: "is not the part that was asked for",
  other_unit: "is another unit",
};

/**
 * The number of the parcel that a return's unit came in: the signs of the return, so that either may be read out.
 *
 * @example parcelNumberOf("R-K7MP-4Q2-HXW") // "P-K7MP-4Q2-HXW"
 */
export function parcelNumberOf(returnNumber: string): string {
  return returnNumber.replace(/^R-/, "P-");
}
