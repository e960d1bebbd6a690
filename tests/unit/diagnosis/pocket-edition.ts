import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { Edition, FigurePerObserver, SignFinding } from "@/lib/domain/diagnosis/knowledge";

/** One cause of base 0.1, another of 0.2, two sites; small enough for a pocket calculator. */
export const pocket = (() => {
  const provenance = { kind: "judgement" } as const;
  const same = (value: number): FigurePerObserver => ({ customer: { value, provenance }, technician: { value, provenance }, bench: { value, provenance } });
  const [drain, , , , , , , , , , , , , , ring] = edition1.causes;
  const [site] = edition1.findings.filter((one): one is SignFinding => one.kind === "site");
  const bore = edition1.findings.find(({ code }) => code === "F13");
  if (!drain || !ring || !site || bore?.kind !== "measurement") throw new Error("edition 1 has them");
  const exact = { absolute: 1e-9, share: 0 };
  const links = (first: number, second: number) => [{ cause: "C01", strength: same(first) }, { cause: "C15", strength: same(second) }];
  return {
    number: 7,
    name: "Pocket",
    causes: [
      { ...drain, base: { value: 0.1, provenance } },
      { ...ring, base: { value: 0.2, provenance } },
    ],
    findings: [
      { ...site, code: "F01", background: same(0.1), links: links(0.5, 0.2) },
      { ...site, code: "F02", background: same(0), links: links(0.4, 0) },
      { ...bore, quantity: "other", accuracy: { customer: exact, technician: exact, bench: exact }, limit: { value: 10, side: "below-is-bad", spread: 2, provenance }, background: same(0.2), links: [{ cause: "C01", strength: same(0.5) }], replaces: [] },
    ],
    references: edition1.references,
    experience: [],
    translations: {},
    samePhysicalFact: [],
    stopRules: [],
  } satisfies Edition;
})();
