import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { diffEditions } from "@/lib/domain/diagnosis/edition-diff";
import { applyEdits, asTyped, type Edits, fieldOfIssue, isEditable, withoutUnchanged } from "@/lib/domain/diagnosis/edition-edits";
import { leavesOf } from "@/lib/domain/diagnosis/edition-leaves";
import { readEdition } from "@/lib/inputs/edition";

const changed = (edits: Edits) => diffEditions(edition1, applyEdits(edition1, edits));
const issues = (edits: Edits) => {
  const read = readEdition(applyEdits(edition1, edits));
  return read.ok ? [] : read.issues.map(({ path }) => path);
};

describe("what is typed into an edition", () => {
  test("changes nothing when nothing is typed, and leaves the edition alone", () => {
    const before = structuredClone(edition1);
    expect(changed({})).toEqual([]);
    applyEdits(edition1, { "causes.C01.base.value": "7", "causes.C05.is": "retired" });
    expect(edition1).toEqual(before);
  });

  test("counts a base figure per thousand, and its ground goes with it", () => {
    const [c01] = changed({ "causes.C01.base.value": "7,5", "causes.C01.base.provenance.kind": "common practice", "causes.C01.base.provenance.note": "Three fitters" });
    expect(c01?.changes).toMatchObject([{ field: "causes.C01.base.value", after: { value: 0.0075, provenance: { kind: "common practice", note: "Three fitters" } } }]);
  });

  test("counts what is seen per hundred, and gives the shared ground to the figures that were typed", () => {
    const at = "findings.F12.links.C01.strength";
    const [f12] = changed({ [`${at}.technician.value`]: "90", [`${at}.provenance.kind`]: "published", [`${at}.provenance.note`]: "A manual" });
    expect(f12?.changes).toMatchObject([{ field: `${at}.technician.value`, after: { value: 0.9, provenance: { kind: "published", source: "A manual" } } }]);
    expect(f12?.affects).toEqual(["C01"]);
  });

  test("reaches an odds ratio, a limit and words", () => {
    const shift = [...leavesOf(edition1).keys()].find((field) => field.endsWith("oddsRatio.value")) ?? "";
    expect(changed({ [shift]: "4" })[0]?.changes).toMatchObject([{ field: shift, after: { value: 4 } }]);
    expect(changed({ "causes.C01.name": "Drain without fall", "findings.F12.minutes": "12" }).map(({ changes }) => changes[0]?.after.value)).toEqual(["Drain without fall", 12]);
  });

  test("adds a link by typing its figure, and takes one away", () => {
    const at = "findings.F12.links.C09";
    expect(changed({ [`${at}.strength.technician.value`]: "20" })[0]).toMatchObject({ subject: { code: "F12" }, affects: ["C09"] });
    expect(changed({ "findings.F12.links.C01.is": "removed" })[0]?.went).toContain("findings.F12.links.C01.cause");
  });

  test("retires a cause with all that names it, and the edition stays sound", () => {
    const edits = { "causes.C09.is": "retired" };
    expect(changed(edits)).toContainEqual(expect.objectContaining({ subject: { kind: "cause", code: "C09" }, fate: "retired" }));
    expect(issues(edits)).toEqual([]);
    expect(JSON.stringify(applyEdits(edition1, edits))).not.toContain("C09");
  });

  test("retires a finding, but not a rule that stops an engine with it", () => {
    expect(issues({ "findings.F22.is": "retired" })).not.toContain("stopRules");
    expect(issues({ "findings.F40.is": "retired" }).some((path) => path.startsWith("stopRules"))).toBe(true);
  });

  test("adds a cause and a finding that show each other", () => {
    const edits: Edits = {
      "causes.C24.is": "added",
      "causes.C24.name": "Drain hose too soft",
      "causes.C24.plainName": "the hose of the oil drain is too soft",
      "causes.C24.advice": "Fit a hose that stays open when it is hot.",
      "causes.C24.base.value": "1.2",
      "findings.F51.is": "added",
      "findings.F51.name": "Drain hose",
      "findings.F51.question": "Does the hose stay round when it is hot?",
      "findings.F51.why": "A soft hose falls in.",
      "findings.F51.how": "Press it with a thumb once it has cooled to hand heat.",
      "findings.F51.links.C24.strength.technician.value": "80",
      "findings.F51.background.technician.value": "3",
    };
    expect(issues(edits)).toEqual([]);
    expect(issues({ "causes.C24.is": "added" })).toEqual(expect.arrayContaining(["causes.C24.name", "causes.C24.base.value"]));
  });

  test("that is no number is refused by the name of its field", () => {
    expect(issues({ "causes.C01.base.value": "often" })).toEqual(["causes.C01.base.value"]);
    expect(issues({ "findings.F12.background.customer.value": "120" })).toEqual(["findings.F12.background.customer.value"]);
    expect(issues({ "causes.C01.base.value": "" })).toEqual(["causes.C01.base.value"]);
  });

  test("is kept only where it differs from what stands there", () => {
    const base = leavesOf(edition1).get("causes.C01.base.value");
    const same = asTyped("causes.C01.base.value", base?.value ?? null);
    expect(withoutUnchanged({ "causes.C01.base.value": ` ${same} `, "causes.C01.name": "Other", "causes.C01.base.provenance.kind": "" }, edition1)).toEqual({ "causes.C01.name": "Other" });
  });

  test("reaches no field that is not for typing", () => {
    for (const field of ["number", "causes.C01.code", "__proto__.polluted", "findings.F12.__proto__.x", "constructor", "stopRules.0.reason"]) expect(isEditable(field)).toBe(false);
    applyEdits(edition1, { "__proto__.polluted": "yes", "causes.C01.__proto__.polluted": "yes" });
    expect("polluted" in {}).toBe(false);
  });

  test("is told of a ground beside the field of its ground", () => {
    expect(fieldOfIssue("findings.F12.links.C01.strength.bench.provenance")).toBe("findings.F12.links.C01.strength.provenance.kind");
    expect(fieldOfIssue("causes.C01.base.provenance.source")).toBe("causes.C01.base.provenance.note");
    expect(fieldOfIssue("causes.C01.base.value")).toBe("causes.C01.base.value");
  });
});
