import type { Edition, Provenance } from "./knowledge";
import { leavesOf } from "./edition-leaves";

/**
 * Where a figure comes from, in words.
 *
 * Example: learned, 12 of 40 and the note "bench inspections of 2026": "learned: 12 of 40, bench inspections of 2026".
 */
export function provenanceInWords(provenance: Provenance): string {
  if (provenance.kind === "published") return `published: ${provenance.source}`;
  if (provenance.kind === "learned") return `learned: ${provenance.counts.hits} of ${provenance.counts.of}, ${provenance.note}`;
  return provenance.note ? `${provenance.kind}: ${provenance.note}` : provenance.kind;
}

/** Where the figures of an edition come from, with how many come from there, the most frequent first. */
export function sourcesOf(edition: Edition): { words: string; kind: Provenance["kind"]; figures: number }[] {
  const sources = new Map<string, { words: string; kind: Provenance["kind"]; figures: number }>();
  for (const { provenance } of leavesOf(edition).values()) {
    if (!provenance) continue;
    // Each learned figure has counts of its own.
    const words = provenance.kind === "learned" ? `learned: ${provenance.note}` : provenanceInWords(provenance);
    const source = sources.get(words) ?? { words, kind: provenance.kind, figures: 0 };
    source.figures += 1;
    sources.set(words, source);
  }
  return [...sources.values()].sort((a, b) => b.figures - a.figures);
}
