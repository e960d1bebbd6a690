import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import { clearReading } from "@/lib/domain/diagnosis/physical-facts";
import { seeded } from "./seeded";

/** A claim with so many findings told, drawn from all there are, seen as often as not. */
export function drawn(seed: number, count: number): Observation[] {
  const random = seeded(seed);
  const pick = <T>(list: readonly T[]) => list[Math.floor(random() * list.length)];
  const open = edition1.findings.filter(({ observers }) => observers.length > 0);
  return Array.from({ length: count }, () => open.splice(Math.floor(random() * open.length), 1)).flat().map((definition): Observation => {
    const finding = definition.code;
    const observer = pick(definition.observers) ?? "technician";
    if (definition.kind === "measurement") return { finding, observer, measured: clearReading(definition, random() < 0.5) };
    return { finding, observer, answer: pick(definition.options)?.value ?? "" };
  });
}
