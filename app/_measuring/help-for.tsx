import type { ReactNode } from "react";
import type { UnitSystem } from "@/lib/domain/claims/unit-systems";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import { textsOf, type Words } from "@/lib/messages/words";
import { MeasuringHelp, type MeasuringKind } from "./measuring-help";

/** Findings whose number can be come by with help. */
const HELPED: Readonly<Record<FindingCode, { kind: MeasuringKind; isUnsigned?: true }>> = {
  F13: { kind: "bore" },
  F26: { kind: "bore" },
  F14: { kind: "fall" },
  F53: { kind: "slope" },
  F20: { kind: "slope", isUnsigned: true },
  F21: { kind: "slope", isUnsigned: true },
};

/** The help that belongs under the field of a finding, or null. */
export function helpFor(code: FindingCode, units: UnitSystem, { language }: Words): ReactNode {
  const helped = HELPED[code];
  return helped ? <MeasuringHelp kind={helped.kind} field={code} units={units} isUnsigned={helped.isUnsigned ?? false} texts={textsOf(language, "measuring")} language={language} /> : null;
}
