import { OIL_PATH_PARTS, type OilPathPart } from "@/lib/domain/diagnosis/oil-path";

/** The number a part carries on the drawing. Filled where evidence or blame lies. `name` is the part's, where not for staff. */
export function Balloon({ part, isHot = false, name }: { part: OilPathPart; isHot?: boolean; name?: string }) {
  const { balloon, name: forStaff } = OIL_PATH_PARTS[part];
  return (
    <span className={isHot ? "balloon hot" : "balloon"} title={name ?? forStaff}>
      {balloon}
    </span>
  );
}
