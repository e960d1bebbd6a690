import { UnitSide } from "./castings";
import { Letter } from "./strokes";

/** Where the plate with the serial number is. */
export function SerialPlate() {
  return (
    <>
      <UnitSide x={180} y={98} size={1.6} />
      <path className="cut" d="M154 88h52v22h-52zM84 46h32v18H84z" />
      <Letter x={226} y={30} letter="A" to="l-36 62" />
      <Letter x={56} y={28} letter="B" to="l36 24" />
    </>
  );
}
