/** What is measured with. */

/** A tape held upright. */
export function Tape({ x, y, height }: { x: number; y: number; height: number }) {
  const ticks = Array.from({ length: Math.floor(height / 8) }, (_, place) => y + 8 * (place + 0.5));
  return (
    <>
      <path className="body" d={`M${x} ${y}h20v${height}h-20z`} />
      <path className="thin" d={ticks.map((at, place) => `M${x} ${at}h${place % 5 === 4 ? 14 : 7}`).join("")} />
    </>
  );
}

/** A phone with its level, lying along a line that falls by so many degrees; (x, y) is the middle of its lower edge. */
export function PhoneLevel({ x, y, degrees }: { x: number; y: number; degrees: number }) {
  return (
    <g transform={`translate(${x} ${y}) rotate(${degrees})`}>
      <rect className="body" x="-40" y="-30" width="80" height="30" rx="5" />
      <rect className="thin" x="-26" y="-22" width="52" height="14" rx="7" />
      <circle className="solid" cx={-degrees} cy="-15" r="5" />
      <path className="thin" d="M-8 -22v14M8 -22v14" />
    </g>
  );
}

/** A dial indicator whose tip touches at (tipX, tipY). */
export function DialIndicator({ x, y, tipX, tipY }: { x: number; y: number; tipX: number; tipY: number }) {
  return (
    <>
      <path className="heavy" d={`M${x} ${y}L${tipX} ${tipY}`} />
      <circle className="solid" cx={tipX} cy={tipY} r="3.5" />
      <circle className="body" cx={x} cy={y} r="27" />
      <path className="thin" d={[...Array(12).keys()].map((hour) => `M${x + 22 * Math.sin(hour / 1.91)} ${y - 22 * Math.cos(hour / 1.91)}L${x + 27 * Math.sin(hour / 1.91)} ${y - 27 * Math.cos(hour / 1.91)}`).join("")} />
      <path className="open" d={`M${x} ${y}l11 -15`} />
      <circle className="solid" cx={x} cy={y} r="3" />
    </>
  );
}

/** A pressure gauge on a stub that ends at (stubX, stubY). */
export function PressureGauge({ x, y, stubX, stubY }: { x: number; y: number; stubX: number; stubY: number }) {
  return (
    <>
      <path className="heavy" d={`M${x} ${y}L${stubX} ${stubY}`} />
      <circle className="body" cx={x} cy={y} r="25" />
      <path className="thin" d={`M${x - 15} ${y + 11}A19 19 0 1 1 ${x + 15} ${y + 11}`} />
      <path className="open" d={`M${x} ${y}l9 -13`} />
      <circle className="solid" cx={x} cy={y} r="3" />
    </>
  );
}

/** A U-tube manometer of which the left leg is under pressure; the difference of its columns is `column` high. */
export function Manometer({ x, y, column }: { x: number; y: number; column: number }) {
  const half = column / 2;
  return (
    <>
      <path className="hose-wall" d={`M${x} ${y}v74a18 18 0 0 0 36 0v-74`} strokeWidth="13" />
      <path className="hose-air" d={`M${x} ${y - 2}v76a18 18 0 0 0 36 0v-76`} strokeWidth="9" />
      <path className="water" d={`M${x} ${y + 48 + half}v${26 - half}a18 18 0 0 0 36 0v-${26 + half}`} strokeWidth="9" />
    </>
  );
}
