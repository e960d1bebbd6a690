import { expect, test } from "vitest";
import { FINDING_DRAWINGS, NOT_DRAWN, SCREEN_DRAWINGS, SCREENS_NOT_DRAWN } from "@/app/_drawings/finding-drawings";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { SCREENS } from "@/lib/domain/intake/answers";
import { FINDINGS_ASKED } from "@/lib/domain/intake/questions";

const sorted = (names: Iterable<string>) => [...names].sort();

test("each finding of the shipped edition is drawn, or it is said why not, and no other is", () => {
  expect(sorted([...Object.keys(FINDING_DRAWINGS), ...Object.keys(NOT_DRAWN)])).toEqual(sorted(edition1.findings.map(({ code }) => code)));
});

test("so is each screen that asks for something other than findings", () => {
  expect(sorted([...Object.keys(SCREEN_DRAWINGS), ...Object.keys(SCREENS_NOT_DRAWN)])).toEqual(sorted(SCREENS.filter((screen) => FINDINGS_ASKED[screen] === undefined)));
});
