interface Maker {
  id: string;
  name: string;
  retiredOn: Date | null;
}

/** Suppliers to choose from: those still bought from, and the one chosen so far. */
export function makerOptions(suppliers: readonly Maker[], chosen: string | null | undefined): (readonly [value: string, label: string])[] {
  return [["", "not said yet"], ...suppliers.filter(({ id, retiredOn }) => retiredOn === null || id === chosen).map(({ id, name, retiredOn }) => [id, retiredOn ? `${name}, no longer bought from` : name] as const)];
}
