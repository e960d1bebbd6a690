import { Crankcase, UnitEnd } from "./castings";
import { PhoneLevel, Tape } from "./instruments";
import { Dimension, Hose, Letter, Movement } from "./strokes";

const FALLING = "M80 87V104C80 150 150 150 260 168";

/** Unit, crankcase and the drain between them. */
function Drain({ d = FALLING }: { d?: string }) {
  return (
    <>
      <Crankcase x={250} y={66} width={100} height={126} />
      <Hose d={d} />
      <UnitEnd x={80} y={44} size={0.8} />
    </>
  );
}

export function DrainFalls() {
  return (
    <>
      <Drain />
      <Movement x1={112} y1={100} x2={188} y2={132} />
    </>
  );
}

export function FallOfDrain() {
  return (
    <>
      <Drain />
      <path className="hidden" d="M102 87H206M250 168H172" />
      <Tape x={180} y={87} height={81} />
      <Letter x={140} y={62} letter="A" to="l14 24" />
      <Letter x={222} y={184} letter="B" to="l-8 -15" />
    </>
  );
}

export function LowestStretchOfDrain() {
  return (
    <>
      <Crankcase x={266} y={84} width={84} height={108} />
      <Hose d="M70 87V100C70 124 90 125 110 127L212 141C236 144 250 150 276 152" />
      <UnitEnd x={70} y={44} size={0.8} />
      <PhoneLevel x={164} y={125} degrees={8} />
      <path className="hidden" d="M96 152H250" />
      <path className="lead" d="M96 152L250 173M226 152A130 130 0 0 1 225 169" />
      <Letter x={196} y={184} letter="A" to="l29 -23" />
    </>
  );
}

export function LengthOfDrain() {
  return (
    <>
      <Drain />
      <path className="hidden" d="M62 92V108C62 168 148 168 246 185" />
      <path className="lead" d="M54 92h16M249 178l-5 14" />
      <Letter x={122} y={178} letter="A" to="l-6 -16" />
    </>
  );
}

export function ElbowsOfDrain() {
  return (
    <>
      <Drain d="M80 87V118H166V162H260" />
      <Letter x={54} y={134} letter="1" to="l22 -14" />
      <Letter x={192} y={100} letter="2" to="l-22 14" />
      <Letter x={140} y={180} letter="3" to="l22 -16" />
    </>
  );
}

/** The bore of a hose in section, and a strip of paper round its outside. */
function HoseBore({ holds }: { holds: "oil" | "air" }) {
  return (
    <>
      <circle className="cut" cx="104" cy="92" r="62" />
      <circle className={holds === "oil" ? "oil" : "body"} cx="104" cy="92" r="40" />
      <Dimension x1={64} y1={92} x2={144} y2={92} />
      <path className="thin" d="M42 92V188M166 92V188" />
      <Dimension x1={42} y1={180} x2={166} y2={180} />
      <Letter x={104} y={72} letter="A" />
      <Letter x={190} y={180} letter="B" />
      <Letter x={182} y={36} letter="C" to="l-30 20" />
      <path className="open" d="M220 62H350M220 122H350" />
      <path className="body" d="M272 58h26v68h-26zM272 126l-8 24h26l8 -24z" />
      <Letter x={322} y={164} letter="D" to="l-36 -26" />
    </>
  );
}

export const BoreOfDrain = () => <HoseBore holds="oil" />;
export const BoreOfVentHose = () => <HoseBore holds="air" />;

export function DrainIntoCan() {
  return (
    <>
      <path className="oil" d="M216 158h84v30h-84z" />
      <path className="open" d="M214 118V190h88V118" />
      <Hose d="M90 87V100C90 150 180 120 252 128V148" />
      <UnitEnd x={90} y={44} size={0.8} />
      <circle className="body" cx="318" cy="56" r="28" />
      <path className="open" d="M318 38V56l12 8M312 24h12" />
    </>
  );
}

/** The outlet turned away from straight down. */
export function AngleOfOutlet() {
  return (
    <>
      <UnitEnd x={180} y={84} size={1.15} degrees={25} />
      <path className="centre" d="M180 84V196M180 84L134 184" />
      <path className="lead" d="M180 180A96 96 0 0 1 140 171" />
      <Letter x={226} y={178} letter="A" to="l-66 0" />
    </>
  );
}

/* Beside the options, 120 by 80. */

function SmallDrain({ d }: { d: string }) {
  return (
    <>
      <path className="cut" d="M94 34h26v46H94z" />
      <Hose d={d} width={11} />
      <UnitEnd x={26} y={22} size={0.38} />
    </>
  );
}

export const SmallFalls = () => <SmallDrain d="M26 42V48C26 62 54 58 96 70" />;
export const SmallLevel = () => <SmallDrain d="M26 42V48Q26 56 34 56H96" />;
export const SmallRises = () => <SmallDrain d="M26 42V58Q26 70 40 68L96 46" />;
export const SmallSags = () => <SmallDrain d="M26 42V48C26 76 50 78 62 68S80 56 96 56" />;

function SmallEntry({ y }: { y: number }) {
  return (
    <>
      <Crankcase x={46} y={12} width={70} height={66} level={24} />
      <Hose d={`M4 ${y - 6}L54 ${y}`} width={11} />
    </>
  );
}

export const EntryBelowOil = () => <SmallEntry y={62} />;
export const EntryAboveOil = () => <SmallEntry y={32} />;

/** A pipe in section with the shape of its upper inside; the lower is the same, mirrored. */
function PipeInside({ inside }: { inside: string }) {
  return (
    <>
      {[1, -1].map((side) => (
        <path key={side} className="cut" d={`M4 -32H116V-20${inside}Z`} transform={`translate(0 40) scale(1 ${side})`} />
      ))}
    </>
  );
}

export const PipeCrushed = () => <PipeInside inside="C80 -20 74 -4 60 -4S40 -20 4 -20" />;
export const PipeCoked = () => <PipeInside inside="L104 -10L96 -14L88 -5L76 -12L66 -4L54 -11L44 -6L34 -13L22 -8L4 -20" />;
export const PipeWithSealant = () => <PipeInside inside="H92C88 2 70 2 66 -12S52 -20 48 -20H4" />;
export const PipeClear = () => <PipeInside inside="H4" />;

function OutletGasket({ x, radius }: { x: number; radius: number }) {
  return (
    <>
      <rect className="cut" x="10" y="10" width="100" height="60" rx="24" />
      <circle className="hidden" cx="60" cy="40" r="22" />
      <circle className="body" cx={x} cy="40" r={radius} />
      <circle className="hidden" cx="60" cy="40" r="22" />
      <circle className="body" cx="25" cy="40" r="6" />
      <circle className="body" cx="95" cy="40" r="6" />
    </>
  );
}

export const GasketSmall = () => <OutletGasket x={60} radius={11} />;
export const GasketOutOfLine = () => <OutletGasket x={70} radius={17} />;
export const GasketMatches = () => <OutletGasket x={60} radius={23} />;
