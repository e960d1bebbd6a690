import type { ReactNode } from "react";
import type { DrawnField } from "@/app/_components/question-field";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import type { Screen } from "@/lib/domain/intake/answers";
import type { Say } from "@/lib/domain/say";
import { Drawing, Pictures } from "./drawing";
import { FIELD_DRAWINGS, FINDING_DRAWINGS, SCREEN_DRAWINGS, type Shapes } from "./finding-drawings";

export type FieldDrawings = Omit<DrawnField, "help">;

function worded(name: string, Shape: Shapes, say: Say): ReactNode {
  return (
    <Drawing caption={say(`drawings.${name}.caption`)} legend={say(`drawings.${name}.legend`)}>
      <Shape />
    </Drawing>
  );
}

/** What is drawn of a finding, for its field in a form. */
export function drawingsOf(code: FindingCode, say: Say): FieldDrawings {
  const drawn = FINDING_DRAWINGS[code] ?? FIELD_DRAWINGS[code];
  return {
    asked: drawn?.asked ? worded(code, drawn.asked, say) : null,
    options: Object.fromEntries(Object.entries(drawn?.options ?? {}).map(([value, shapes]) => [value, <Pictures key={value} shapes={shapes} />])),
  };
}

/** The drawing of a screen that asks for something other than a finding, or null. */
export function ScreenDrawing({ screen, say }: { screen: Screen; say: Say }): ReactNode {
  const shapes = SCREEN_DRAWINGS[screen];
  return shapes ? worded(screen, shapes, say) : null;
}
