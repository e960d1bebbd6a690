import { OIL_PATH_PARTS, type OilPathPart } from "@/lib/domain/diagnosis/oil-path";

/** The number a part carries on the drawing. Filled where evidence or blame lies. */
export function Balloon({ part, isHot = false }: { part: OilPathPart; isHot?: boolean }) {
  const { balloon, name } = OIL_PATH_PARTS[part];
  return (
    <span className={isHot ? "balloon hot" : "balloon"} title={name}>
      {balloon}
    </span>
  );
}
