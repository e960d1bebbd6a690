import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { diffEditions, unexplainedChanges } from "@/lib/domain/diagnosis/edition-diff";
import { leavesOf } from "@/lib/domain/diagnosis/edition-leaves";
import type { Cause, Edition, FindingDefinition, Provenance } from "@/lib/domain/diagnosis/knowledge";
import { pocket } from "./pocket-edition";

const from: Edition = pocket;
const [drain, ring] = from.causes as [Cause, Cause];
const told: Provenance = { kind: "judgement", note: "Three fitters said so" };

const withDrain = (change: Partial<Cause>): Edition => ({ ...from, causes: [{ ...drain, ...change }, ring] });
const withFirstFinding = (change: (finding: FindingDefinition) => FindingDefinition): Edition => ({ ...from, findings: from.findings.map((one, place) => (place === 0 ? change(one) : one)) });

describe("the diff of two editions", () => {
  test("is empty for an edition and itself, whatever its number and the order of its keys", () => {
    const shuffled = JSON.parse(JSON.stringify(edition1, (_, value) => (value && typeof value === "object" && !Array.isArray(value) ? Object.fromEntries(Object.entries(value).reverse()) : value)));
    expect(diffEditions(edition1, { ...shuffled, number: 2 })).toEqual([]);
  });

  test("tells old, new and factor of a changed figure, and the cause it can move", () => {
    expect(diffEditions(from, withDrain({ base: { value: 0.15, provenance: told } }))).toEqual([
      {
        subject: { kind: "cause", code: "C01" },
        name: drain.name,
        fate: "changed",
        changes: [{ field: "causes.C01.base.value", before: { value: 0.1, provenance: { kind: "judgement" } }, after: { value: 0.15, provenance: told }, factor: expect.closeTo(1.5, 12) }],
        came: [],
        went: [],
        affects: ["C01"],
      },
    ]);
  });

  test("tells a figure whose ground alone has changed", () => {
    const [change] = diffEditions(from, withDrain({ base: { value: 0.1, provenance: told } }));
    expect(change?.changes).toMatchObject([{ field: "causes.C01.base.value", factor: 1 }]);
  });

  test("has no factor where one side is zero or a word", () => {
    const [change] = diffEditions(from, withDrain({ name: "Drain not steep enough", base: { value: 0, provenance: told } }));
    expect(change?.changes.map(({ field, factor }) => [field, factor])).toEqual([["causes.C01.name", null], ["causes.C01.base.value", null]]);
  });

  test("names a cause that came in between, and calls nothing else changed", () => {
    const extra = { ...drain, code: "C24", name: "Drain hose too soft" };
    const [added, ...others] = diffEditions(from, { ...from, causes: [drain, extra, ring] });
    expect(added).toMatchObject({ subject: { kind: "cause", code: "C24" }, name: "Drain hose too soft", fate: "added", changes: [] });
    expect(others).toEqual([]);
    expect(diffEditions({ ...from, causes: [drain, extra, ring] }, from)).toMatchObject([{ subject: { code: "C24" }, fate: "retired" }]);
  });

  test("names a link that came, with the cause it now speaks for, and one that went", () => {
    const unlinked = withFirstFinding((one) => (one.kind === "circumstance" ? one : { ...one, links: one.links.filter(({ cause }) => cause !== "C15") }));
    const [lost] = diffEditions(from, unlinked);
    expect(lost?.went).toContain("findings.F01.links.C15.strength.customer.value");
    expect(lost?.affects).toEqual(["C15"]);
    expect(diffEditions(unlinked, from)[0]?.came).toContain("findings.F01.links.C15.strength.customer.value");
  });

  test("holds a changed background to affect every cause of its finding", () => {
    const changed = withFirstFinding((one) => (one.kind === "circumstance" ? one : { ...one, background: { ...one.background, technician: { value: 0.3, provenance: told } } }));
    expect(diffEditions(from, changed)[0]?.affects).toEqual(["C01", "C15"]);
  });

  test("tells what changed of the edition as a whole", () => {
    expect(diffEditions(from, { ...from, name: "Pocket, second" })).toMatchObject([{ subject: null, changes: [{ field: "name", before: { value: "Pocket" }, after: { value: "Pocket, second" } }] }]);
  });

  test("states every figure of the shipped edition under a name of its own", () => {
    const figures = (value: unknown): number => (typeof value !== "object" || value === null ? 0 : Object.values(value).reduce((sum: number, inner) => sum + figures(inner), "provenance" in value && "value" in value ? 1 : 0));
    expect([...leavesOf(edition1).values()].filter(({ provenance }) => provenance)).toHaveLength(figures(edition1));
  });
});

describe("a changed figure", () => {
  test("that keeps its old ground is unexplained", () => {
    expect(unexplainedChanges(from, withDrain({ base: { ...drain.base, value: 0.15 } }))).toEqual(["causes.C01.base.value"]);
  });

  test("with a ground of its own is explained, and so is a figure left alone", () => {
    expect(unexplainedChanges(from, withDrain({ base: { value: 0.15, provenance: told } }))).toEqual([]);
    expect(unexplainedChanges(from, from)).toEqual([]);
  });
});
