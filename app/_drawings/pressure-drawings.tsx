import { UnitSide } from "./castings";
import { Manometer, PressureGauge } from "./instruments";
import { Dimension, Hose, Letter, Movement } from "./strokes";

function Engine() {
  return <path className="body" d="M20 92h130v100H20zM34 62h102v30H34z" />;
}

/** The manometer on the tube of the oil stick; what is read is the difference of its columns. */
export function CrankcasePressure() {
  return (
    <>
      <Engine />
      <path className="open" d="M128 150L176 66" />
      <Hose d="M174 70C196 30 230 26 270 40V60" width={9} holds="air" />
      <Manometer x={270} y={56} column={44} />
      <path className="lead" d="M262 126H340M300 82H340" />
      <Dimension x1={334} y1={82} x2={334} y2={126} />
      <Letter x={334} y={152} letter="A" />
    </>
  );
}

/** All of the vent led through a meter. */
export function BlowBy() {
  return (
    <>
      <Hose d="M84 66V34H236" holds="air" />
      <Engine />
      <path className="body" d="M214 16h96v72h-96z" />
      <circle className="body" cx="262" cy="46" r="22" />
      <path className="open" d="M262 46l9 -13" />
      <path className="thin" d="M226 78h72" />
      <Movement x1={310} y1={52} x2={352} y2={52} />
    </>
  );
}

/** The drain capped at both ends, the pressure measured again. */
export function UnitIsolated() {
  return (
    <>
      <UnitSide x={236} y={46} size={0.8} />
      <path className="solid" d="M220 84h32v9h-32z" />
      <Hose d="M140 166H176" width={18} />
      <path className="solid" d="M176 154h10v24h-10z" />
      <Hose d="M140 124H240Q290 124 290 104V98" width={9} holds="air" />
      <Engine />
      <Manometer x={290} y={98} column={24} />
    </>
  );
}

export function FillerCapAtIdle() {
  return (
    <>
      <path className="body" d="M70 128h190v64H70zM96 94h138v34H96zM146 76h38v18h-38z" />
      <path className="body" d="M138 46l52 -12l4 18l-52 12z" />
      <Movement x1={226} y1={66} x2={226} y2={26} />
      <path className="hidden" d="M150 72c-4 -6 2 -8 -2 -12M178 70c4 -6 -2 -8 2 -12" />
    </>
  );
}

export function FeedPressure() {
  return (
    <>
      <UnitSide x={170} y={132} size={1.2} />
      <path className="flow" d="M170 84V58H90" />
      <path className="body" d="M162 48h24v20h-24z" />
      <PressureGauge x={250} y={42} stubX={186} stubY={58} />
    </>
  );
}

/** The feed fitting in section with the narrow bore in it. */
export function RestrictorBore() {
  return (
    <>
      <path className="cut" d="M60 40h240v36H200v16h-40v-16H60zM60 160h240v-36H200v-16h-40v16H60z" />
      <path className="flow" d="M20 100H56M306 100H344" />
      <Dimension x1={180} y1={84} x2={180} y2={116} />
      <Letter x={180} y={26} letter="A" to="v58" />
    </>
  );
}
