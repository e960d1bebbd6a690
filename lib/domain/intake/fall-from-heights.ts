/**
 * The fall between two places that no tape can be held between, from their heights over one level: the ground, or the edge
 * of the engine bay. Below 0 the second place lies higher.
 *
 * Example: an outlet 820 mm and an entry 700 mm over the ground: a fall of 120 mm.
 */
export function fallFromHeights(outletMm: number, entryMm: number): number {
  return outletMm - entryMm;
}
