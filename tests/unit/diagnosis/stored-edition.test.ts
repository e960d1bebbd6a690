import { expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { fromStored, type StoredEdition } from "@/lib/domain/diagnosis/stored-edition";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { editionSchema } from "@/lib/inputs/edition";

/** The first edition as it would have been kept before references, experience and accuracy were stated. */
function fromLongAgo(): StoredEdition {
  const { references: _references, experience: _experience, ...document } = structuredClone(edition1);
  return {
    ...document,
    findings: document.findings.map((one) => {
      if (one.kind !== "measurement") return one;
      const { accuracy: _accuracy, ...kept } = one;
      return { ...kept, quantity: "length" };
    }),
  };
}

test("a document from before references, experience and accuracy is read with those of the first edition", () => {
  expect(fromStored(fromLongAgo())).toEqual(edition1);
});

test("a measurement that the first edition does not know is held against its own limit, good to a tenth", () => {
  const old = fromLongAgo();
  const limit = { value: 25, side: "above-is-bad", spread: 5, provenance: { kind: "judgement" } } as const;
  const findings = old.findings.map((one) => (one.code === "F13" ? { ...one, code: "F90", limit } : one));
  const read = fromStored({ ...old, findings, samePhysicalFact: [] });
  expect(read.findings.find(({ code }) => code === "F90")).toMatchObject({ quantity: "other", accuracy: { technician: { absolute: 0, share: 0.1 } } });
  expect(editionSchema.safeParse(read).error?.issues ?? []).toEqual([]);
  expect(rankCauses([{ finding: "F90", observer: "technician", measured: 40 }], read).outcome).toBe("ranked");
});

test("what a document states stands", () => {
  expect(fromStored({ ...edition1, references: { boost: { ...edition1.references.boost, value: 7 } } }).references).toEqual({ ...edition1.references, boost: { ...edition1.references.boost, value: 7 } });
  expect(fromStored(edition1)).toEqual(edition1);
});
