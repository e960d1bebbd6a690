import type { PairUnit } from "@/lib/domain/claims/pair-units";
import { PressureGauge } from "./instruments";
import { Letter, Movement } from "./strokes";

const pleats = (x: number, y: number, width: number, height: number) => Array.from({ length: Math.floor(width / 8) - 1 }, (_, place) => `M${x + 8 * (place + 1)} ${y}v${height}`).join("");

function Element({ x, y, width, height }: { x: number; y: number; width: number; height: number }) {
  return (
    <>
      <path className="body" d={`M${x} ${y}h${width}v${height}h${-width}z`} />
      <path className="thin" d={pleats(x, y, width, height)} />
    </>
  );
}

const DIRT: readonly (readonly [x: number, y: number, r: number])[] = [
  [24, 26, 5],
  [38, 50, 7],
  [58, 30, 8],
  [70, 56, 5],
  [84, 34, 6],
  [98, 54, 7],
  [50, 62, 4],
  [30, 38, 4],
  [92, 22, 4],
];

export function FilterDirty() {
  return (
    <>
      <Element x={12} y={12} width={96} height={56} />
      {DIRT.map(([x, y, r]) => (
        <circle key={x} className="solid" cx={x} cy={y} r={r} />
      ))}
    </>
  );
}

export function FilterSmall() {
  return (
    <>
      <path className="hidden" d="M12 12h96v56H12z" />
      <Element x={40} y={26} width={40} height={28} />
    </>
  );
}

export const FilterClean = () => <Element x={12} y={12} width={96} height={56} />;

export function NumberOnFilter() {
  return (
    <>
      <Element x={60} y={36} width={208} height={128} />
      <path className="body" d="M104 84h120v34H104z" />
      <text x="164" y="101">
        K 1234
      </text>
      <Letter x={310} y={60} letter="A" to="l-92 34" />
    </>
  );
}

/** Filter, duct and compressor wheel in section. */
function IntakeDuct() {
  return (
    <>
      <path className="body" d="M20 44h52v112H20z" />
      <path className="thin" d="M32 54v92M42 54v92M52 54v92M62 54v92" />
      <path className="open" d="M72 72H262M72 128H262" />
      <path className="cut" d="M262 72c14 -6 22 -20 24 -46h30v56h-10zM262 128c14 6 22 20 24 46h30v-56h-10z" />
      <path className="body" d="M262 94c22 -4 30 -18 34 -38h8v88h-8c-4 -20 -12 -34 -34 -38z" />
      <path className="centre" d="M240 100H350" />
    </>
  );
}

export function OilAheadOfWheel() {
  return (
    <>
      <IntakeDuct />
      <path className="oil" d="M150 127c20 -10 70 -12 108 -9v9z" />
      <Letter x={196} y={172} letter="A" to="l6 -50" />
      <Movement x1={96} y1={100} x2={160} y2={100} />
    </>
  );
}

export function DepressionAtInlet() {
  return (
    <>
      <IntakeDuct />
      <PressureGauge x={226} y={32} stubX={226} stubY={72} />
      <Movement x1={96} y1={100} x2={160} y2={100} />
    </>
  );
}

/** A pair in the way of the air: the large unit first, then the small one; the one that is meant is hatched. */
function Pair({ meant }: { meant: PairUnit }) {
  return (
    <>
      <path className="open" d="M40 38H92" />
      <circle className={meant !== "small" ? "cut" : "body"} cx="36" cy="40" r="27" />
      <circle className="body" cx="36" cy="40" r="9" />
      <circle className={meant !== "large" ? "cut" : "body"} cx="96" cy="40" r="17" />
      <circle className="body" cx="96" cy="40" r="6" />
    </>
  );
}

export const LargeOfPair = () => <Pair meant="large" />;
export const SmallOfPair = () => <Pair meant="small" />;
export const BothOfPair = () => <Pair meant="both" />;

export function SingleUnit() {
  return (
    <>
      <circle className="cut" cx="60" cy="40" r="27" />
      <circle className="body" cx="60" cy="40" r="9" />
    </>
  );
}
