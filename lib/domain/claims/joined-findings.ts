/** What decides which of two findings stands. */
export interface DatedFinding {
  code: string;
  observer: string;
  observedAt: Date;
}

/**
 * The findings that stand where a complaint was filed twice and both are looked at as one: of what the same observer
 * said of the same thing in either, the newest; what different observers said stands side by side, as within one claim.
 * They come oldest first.
 *
 * Example: the customer called the drain level in March and rising in May, in two complaints about one unit: rising stands.
 */
export function standingOfJoined<Finding extends DatedFinding>(findings: readonly Finding[]): Finding[] {
  const newest = new Map<string, Finding>();
  for (const finding of [...findings].sort((a, b) => a.observedAt.getTime() - b.observedAt.getTime())) {
    const key = `${finding.code} ${finding.observer}`;
    newest.delete(key);
    newest.set(key, finding);
  }
  return [...newest.values()];
}

/** What stood in one of the joined complaints and no longer does, because the same observer said otherwise later in another. */
export function overtakenOfJoined<Finding extends DatedFinding>(findings: readonly Finding[]): Finding[] {
  const standing = new Set(standingOfJoined(findings));
  return findings.filter((finding) => !standing.has(finding));
}
