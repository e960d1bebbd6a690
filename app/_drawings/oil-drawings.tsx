import { UnitSide, WheelFront } from "./castings";
import { Letter } from "./strokes";

const DROP = "c5 8 7 11 7 15a7 7 0 0 1 -14 0c0 -4 2 -7 7 -15z";

export function Puddle() {
  return (
    <>
      <path className="oil" d={`M44 6${DROP}M70 16${DROP}M56 34${DROP}`} />
      <path className="oil" d="M8 70c6 -12 34 -12 52 -10s46 -4 52 8c-10 8 -90 10 -104 2z" />
    </>
  );
}

/** A strip of paper drawn through it, with a faint stain. */
export function Film() {
  return (
    <>
      <path className="body" d="M22 8h76v64H22z" />
      <path className="thin" d="M22 8l6 -4h76v64l-6 4" />
      <path className="oil" d="M50 12h16v52H50z" />
    </>
  );
}

/** The stick between its cloth and its end, read from the upper mark A to the lower mark B. */
export function OilStick() {
  return (
    <>
      <path className="body" d="M40 90h270v16H40z" />
      <circle className="open" cx="26" cy="98" r="14" />
      <path className="oil" d="M232 91h77v14h-77z" />
      <path className="heavy" d="M200 82v32M284 82v32" />
      <Letter x={200} y={54} letter="A" to="l0 30" />
      <Letter x={284} y={54} letter="B" to="l0 30" />
    </>
  );
}

/** The end of the stick upright, oily up to a height. */
function StickEnd({ top }: { top: number }) {
  return (
    <>
      <path className="body" d="M48 0v66q12 14 24 0V0z" />
      <path className="oil" d={`M49 ${top}v${66 - top}q11 12 22 0v${top - 66}z`} />
      <path className="heavy" d="M42 28h36M42 60h36" />
    </>
  );
}

export const StickAboveMark = () => <StickEnd top={12} />;
export const StickBetweenMarks = () => <StickEnd top={42} />;

const Unit = () => <UnitSide x={180} y={98} size={1.7} />;

export function OilInTurbine() {
  return (
    <>
      <Unit />
      <path className="oil" d="M290 112h44v12h-44zM240 136q18 12 38 0v18q-18 16 -38 0z" />
      <Letter x={330} y={176} letter="A" to="l-14 -56" />
      <Letter x={232} y={184} letter="B" to="l26 -30" />
    </>
  );
}

export function OilInCompressor() {
  return (
    <>
      <Unit />
      <path className="oil" d="M32 112h38v12H32zM82 136q18 12 38 0v18q-18 16 -38 0z" />
      <Letter x={36} y={176} letter="A" to="l14 -56" />
      <Letter x={132} y={184} letter="B" to="l-30 -30" />
    </>
  );
}

export function OilOutside() {
  return (
    <>
      <Unit />
      <path className="oil" d={`M196 56${DROP}M206 176${DROP}M152 142${DROP}`} />
      <Letter x={246} y={30} letter="A" to="l-44 32" />
      <Letter x={266} y={184} letter="B" to="l-54 4" />
      <Letter x={104} y={178} letter="C" to="l44 -22" />
    </>
  );
}

/** The ports of the engine ahead of the turbine, oil in one of them. */
export function OilInPorts() {
  return (
    <>
      <path className="cut" d="M30 40h300v110H30z" />
      {[74, 145, 216, 287].map((x) => (
        <circle key={x} className="body" cx={x} cy="95" r="26" />
      ))}
      <path className="oil" d="M193 107a26 26 0 0 0 46 0z" />
      <path className="oil" d={`M216 152${DROP}`} />
      <Letter x={266} y={180} letter="A" to="l-40 -14" />
    </>
  );
}

/* Beside the options, 120 by 80. */

export function RubMarks() {
  return (
    <>
      <circle className="open" cx="60" cy="40" r="37" />
      <WheelFront x={60} y={40} radius={32} />
      <path className="heavy" d="M84 16A34 34 0 0 1 93 48M40 68A34 34 0 0 1 28 52" />
    </>
  );
}

export function NoRubMarks() {
  return (
    <>
      <circle className="open" cx="60" cy="40" r="37" />
      <WheelFront x={60} y={40} radius={32} />
    </>
  );
}

export const BladesNicked = () => <WheelFront x={60} y={40} radius={36} isNicked />;
export const BladesSmooth = () => <WheelFront x={60} y={40} radius={36} />;

export function CrateWhole() {
  return (
    <>
      <path className="body" d="M20 14h80v54H20z" />
      <path className="thin" d="M20 32h80M20 50h80M34 14v54M86 14v54" />
    </>
  );
}

export function CrateBroken() {
  return (
    <>
      <CrateWhole />
      <path className="ground" d="M88 8L70 30L82 38L60 62L66 74H104V8z" />
      <path className="heavy" d="M88 12L70 30L82 38L60 62L64 69" />
    </>
  );
}
