import { ShaftInHousing, UnitSide, WheelFront } from "./castings";
import { DialIndicator, PhoneLevel } from "./instruments";
import { Hose, Letter, Movement } from "./strokes";

/** Fore and aft: the indicator in line with the shaft, on its end. */
export function AxialPlay() {
  return (
    <>
      <ShaftInHousing x={164} y={96} />
      <DialIndicator x={326} y={96} tipX={278} tipY={96} />
      <Movement x1={8} y1={150} x2={104} y2={150} isBothWays />
      <Letter x={226} y={178} letter="A" to="l52 -76" />
    </>
  );
}

/** Sideways at the middle: the indicator's tip reaches the shaft through the oil outlet. */
export function RadialPlayAtCentre() {
  return (
    <>
      <ShaftInHousing x={180} y={70} />
      <DialIndicator x={180} y={168} tipX={180} tipY={80} />
      <Movement x1={40} y1={32} x2={40} y2={108} isBothWays />
      <Movement x1={320} y1={32} x2={320} y2={108} isBothWays />
      <Letter x={250} y={150} letter="A" to="l-52 -42" />
    </>
  );
}

/** Sideways at the nose of the compressor wheel. */
export function RadialPlayAtNose() {
  return (
    <>
      <ShaftInHousing x={200} y={122} />
      <DialIndicator x={94} y={36} tipX={94} tipY={113} />
      <Movement x1={40} y1={84} x2={40} y2={160} isBothWays />
      <Letter x={146} y={50} letter="A" to="l-48 60" />
    </>
  );
}

export function TurnedByHand() {
  return (
    <>
      <circle className="open" cx="150" cy="100" r="76" />
      <WheelFront x={150} y={100} radius={68} />
      <path className="heavy" d="M246 52A108 108 0 0 1 250 140" />
      <path className="solid" d="M245 152l-3 -15l13 4z" />
      <Movement x1={306} y1={72} x2={306} y2={128} isBothWays />
    </>
  );
}

/** The shaft tilted from level, a phone lying along the unit. */
export function TiltOfShaft() {
  return (
    <>
      <path className="hidden" d="M30 118H340" />
      <UnitSide x={170} y={118} size={1.3} degrees={9} />
      <PhoneLevel x={178} y={65} degrees={9} />
      <path className="lead" d="M318 118A150 150 0 0 1 316 141" />
      <Letter x={334} y={168} letter="A" to="l-17 -38" />
    </>
  );
}

export function RunOnRig() {
  return (
    <>
      <UnitSide x={180} y={64} size={1.1} />
      <Hose d="M180 114V160" width={26} />
      <path className="oil" d="M138 170h84v20h-84z" />
      <path className="open" d="M136 150V192h88V150" />
      <Movement x1={14} y1={64} x2={74} y2={64} />
      <Movement x1={292} y1={64} x2={350} y2={64} />
      <path className="flow" d="M180 4V18" />
    </>
  );
}

/* Beside the options, 120 by 80. */

function ShaftWithGroove() {
  return <path className="body" d="M2 26H52V34H64V26H118V54H64V46H52V54H2z" />;
}

export function RingSeated() {
  return (
    <>
      <ShaftWithGroove />
      <path className="solid" d="M53 18h10v16h-10zM53 46h10v16h-10z" />
    </>
  );
}

export function RingOffGroove() {
  return (
    <>
      <ShaftWithGroove />
      <path className="solid" d="M74 10l10 3l-4 15l-10 -3zM80 53l10 -3l4 15l-10 3z" />
    </>
  );
}

function Collar() {
  return (
    <>
      <circle className="body" cx="60" cy="40" r="36" />
      <circle className="body" cx="60" cy="40" r="13" />
    </>
  );
}

export function CollarWiped() {
  return (
    <>
      <Collar />
      <path className="heavy" d="M82 20A30 30 0 0 1 88 50M78 24A25 25 0 0 1 83 48M44 66A30 30 0 0 1 31 48M48 62A25 25 0 0 1 37 48" />
    </>
  );
}

export const CollarEven = Collar;

function Journal() {
  return <path className="body" d="M2 30H28V20H92V30H118V50H92V60H28V50H2z" />;
}

export function JournalScored() {
  return (
    <>
      <Journal />
      <path className="heavy" d="M42 21v38M72 21v38" />
      <path className="open" d="M36 21v38M50 21v38M64 21v38M84 21v38" />
    </>
  );
}

export const JournalSmooth = Journal;

function Housing() {
  return (
    <>
      <path className="cut" d="M16 10h88v60H16zM36 26v28h48V26z" fillRule="evenodd" />
    </>
  );
}

export function HousingCracked() {
  return (
    <>
      <Housing />
      <path className="ground" d="M56 4h9l4 22h-9z" />
      <path className="heavy" d="M58 6l6 7l-5 5l6 9" />
    </>
  );
}

export const HousingWhole = Housing;
