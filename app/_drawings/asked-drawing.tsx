import type { ReactNode } from "react";
import type { FindingCode } from "@/lib/domain/diagnosis/knowledge";
import type { Screen } from "@/lib/domain/intake/answers";
import type { Say } from "@/lib/domain/say";
import { Drawing, Pictures } from "./drawing";
import { FINDING_DRAWINGS, SCREEN_DRAWINGS, type Shapes } from "./finding-drawings";

/** What is drawn with a field of a form: made on the server, given to the form as it is. */
export interface FieldDrawings {
  asked: ReactNode;
  /** By the option's value. */
  options: Readonly<Record<string, ReactNode>>;
}

function worded(name: string, Shape: Shapes, say: Say): ReactNode {
  return (
    <Drawing caption={say(`drawings.${name}.caption`)} legend={say(`drawings.${name}.legend`)}>
      <Shape />
    </Drawing>
  );
}

/** Where and how to look for a finding, or null where nothing but the options is drawn. */
export function AskedDrawing({ code, say }: { code: FindingCode; say: Say }): ReactNode {
  const asked = FINDING_DRAWINGS[code]?.asked;
  return asked ? worded(code, asked, say) : null;
}

/** All that is drawn of a finding, for a field of a form. */
export function drawingsOf(code: FindingCode, say: Say): FieldDrawings | undefined {
  const drawn = FINDING_DRAWINGS[code];
  if (!drawn) return undefined;
  return {
    asked: drawn.asked ? worded(code, drawn.asked, say) : null,
    options: Object.fromEntries(Object.entries(drawn.options ?? {}).map(([value, shapes]) => [value, <Pictures key={value} shapes={shapes} />])),
  };
}

/** The drawing of a screen that asks for something other than a finding, or null. */
export function ScreenDrawing({ screen, say }: { screen: Screen; say: Say }): ReactNode {
  const shapes = SCREEN_DRAWINGS[screen];
  return shapes ? worded(screen, shapes, say) : null;
}
