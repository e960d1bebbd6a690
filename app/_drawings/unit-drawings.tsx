import { UnitEnd, UnitSide } from "./castings";
import { Hose, Letter } from "./strokes";

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

const frame = (x: number) => `M${x} 56V40h16M${x + 84} 40h16v16M${x + 100} 144v16h-16M${x + 16} 160H${x}v-16`;

/** The three photos that tell most, each in its frame. */
export function WhatToPhotograph() {
  return (
    <>
      <path className="heavy" d={[10, 130, 250].map(frame).join("")} />
      <path className="cut" d="M88 104h16v48H88z" />
      <Hose d="M36 96V104C36 132 60 124 90 136" width={12} />
      <UnitEnd x={36} y={76} size={0.4} />
      <path className="body" d="M142 116h36v36h-36zM148 104h24v12h-24z" />
      <Hose d="M160 106V70H210V96" width={10} holds="air" />
      <path className="body" d="M196 92h28v22h-28z" />
      <path className="oil" d="M300 56c5 8 7 11 7 15a7 7 0 0 1 -14 0c0 -4 2 -7 7 -15zM300 88c5 8 7 11 7 15a7 7 0 0 1 -14 0c0 -4 2 -7 7 -15z" />
      <path className="oil" d="M262 140c6 -12 24 -12 38 -10s32 -4 38 8c-10 8 -64 10 -76 2z" />
      <text x="60" y="182">
        1
      </text>
      <text x="180" y="182">
        2
      </text>
      <text x="300" y="182">
        3
      </text>
    </>
  );
}
