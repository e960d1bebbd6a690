import type { KitExposure } from "./training-example";

/**
 * Shares units of which the order did not tell the vehicle out to vehicles, as the known ones of the same kit are. Claims
 * nearly always tell it, so that a kit's vehicles would else seem to have too many.
 *
 * Example: 30 for A, 10 for B and 20 not known are 45 for A and 15 for B. A kit with none known keeps its units as they are.
 */
export function shareOutVehicles(kits: readonly KitExposure[]): KitExposure[] {
  const total = (kit: string, isMeant: (one: KitExposure) => boolean) => kits.reduce((sum, one) => sum + (one.kit === kit && isMeant(one) ? one.shipped : 0), 0);
  return kits.flatMap((one): KitExposure[] => {
    const known = total(one.kit, ({ vehicle }) => vehicle !== null);
    if (known === 0) return [one];
    return one.vehicle === null ? [] : [{ ...one, shipped: (one.shipped * total(one.kit, () => true)) / known }];
  });
}
