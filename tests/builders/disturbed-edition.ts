import type { Edition, Figure, FigurePerObserver } from "@/lib/domain/diagnosis/knowledge";
import type { Random } from "../../seed/random";

/**
 * An edition put wrong on purpose: every base figure, link and background by this share, up or down by lot. Links stay
 * below 0.98.
 */
export function disturbed(edition: Edition, share: number, random: Random): Edition {
  const wrong = ({ provenance, value }: Figure): Figure => ({ provenance, value: Math.min(0.98, random.chance(0.5) ? value * (1 + share) : value / (1 + share)) });
  const wrongForAll = ({ customer, technician, bench }: FigurePerObserver): FigurePerObserver => ({ customer: wrong(customer), technician: wrong(technician), bench: wrong(bench) });
  return {
    ...edition,
    causes: edition.causes.map((cause) => ({ ...cause, base: wrong(cause.base) })),
    findings: edition.findings.map((finding) =>
      finding.kind === "circumstance"
        ? finding
        : { ...finding, background: wrongForAll(finding.background), links: finding.links.map((link) => ({ ...link, strength: wrongForAll(link.strength) })) },
    ),
  };
}

/** Figures by name, those that learning is about. */
function figuresOf(edition: Edition): Map<string, number> {
  const figures = new Map(edition.causes.map(({ code, base }) => [code, base.value]));
  for (const finding of edition.findings) {
    if (finding.kind === "circumstance") continue;
    for (const observer of finding.observers) {
      figures.set(`${finding.code} ${observer}`, finding.background[observer].value);
      for (const { cause, strength } of finding.links) figures.set(`${finding.code} ${observer} ${cause}`, strength[observer].value);
    }
  }
  return figures;
}

/** Mean distance of two editions' figures, as the natural log of their ratio; of those named alone where names are given. */
export function meanDistance(one: Edition, other: Edition, isMeant: (name: string) => boolean = () => true): number {
  const there = figuresOf(other);
  const distances = [...figuresOf(one)].flatMap(([name, value]) => (isMeant(name) ? [Math.abs(Math.log(value / (there.get(name) ?? Number.NaN)))] : []));
  return distances.reduce((sum, distance) => sum + distance, 0) / distances.length;
}

/** Names of the figures that verdicts have taught. */
export function learnedNames(edition: Edition): Set<string> {
  const names = new Set<string>();
  const add = (name: string, figure: Figure | undefined) => figure?.provenance.kind === "learned" && names.add(name);
  for (const { code, base } of edition.causes) add(code, base);
  for (const finding of edition.findings) {
    if (finding.kind === "circumstance") continue;
    for (const observer of finding.observers) {
      add(`${finding.code} ${observer}`, finding.background[observer]);
      for (const { cause, strength } of finding.links) add(`${finding.code} ${observer} ${cause}`, strength[observer]);
    }
  }
  return names;
}
