/** @example makesInWords({ turboModels: 1, kits: 0 }) === "makes one turbo model" */
export function makesInWords({ turboModels, kits }: { turboModels: number; kits: number }): string {
  const models = turboModels === 1 ? "one turbo model" : `${turboModels} turbo models`;
  const parts = kits === 1 ? "the parts of one kit" : `the parts of ${kits} kits`;
  const made = [...(turboModels > 0 ? [models] : []), ...(kits > 0 ? [parts] : [])];
  return made.length > 0 ? `makes ${made.join(" and ")}` : "makes nothing yet";
}
