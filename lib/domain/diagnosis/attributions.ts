/**
 * Who or what a cause lies with. `fit` is the fitter's work, `kit` the kit's own parts or drawing,
 * `engine` the condition of the engine, `unit` a product defect, `normal` no fault at all, `transit`
 * damage in carriage, `elsewhere` another part of the vehicle.
 */
export const ATTRIBUTIONS = ["fit", "kit", "engine", "unit", "normal", "transit", "elsewhere"] as const;
export type Attribution = (typeof ATTRIBUTIONS)[number];

/** Where a cause that may be the fitter's or the kit's was found to lie. */
export const ORIGINS = ["fitter", "kit", "not_known"] as const;
export type Origin = (typeof ORIGINS)[number];
