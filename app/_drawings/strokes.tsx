/** Lines of a drawing that mean the same everywhere: hoses, dimensions, movements, letters. */

/** A hose along a path: its wall, and in it oil or air. */
export function Hose({ d, width = 16, holds = "oil" }: { d: string; width?: number; holds?: "oil" | "air" }) {
  return (
    <>
      <path className="hose-wall" d={d} strokeWidth={width} />
      <path className={`hose-${holds}`} d={d} strokeWidth={width * 0.66} />
    </>
  );
}

interface Ends {
  x1: number;
  y1: number;
  x2: number;
  y2: number;
}

function Head({ x, y, degrees, size = 10 }: { x: number; y: number; degrees: number; size?: number }) {
  return <path className="solid" d={`M0 0L${-size} ${-size * 0.42}V${size * 0.42}Z`} transform={`translate(${x} ${y}) rotate(${degrees})`} />;
}

const direction = ({ x1, y1, x2, y2 }: Ends) => (Math.atan2(y2 - y1, x2 - x1) * 180) / Math.PI;

/** A dimension: a thin line with heads at both ends. */
export function Dimension(ends: Ends) {
  const { x1, y1, x2, y2 } = ends;
  return (
    <>
      <path className="lead" d={`M${x1} ${y1}L${x2} ${y2}`} />
      <Head x={x2} y={y2} degrees={direction(ends)} />
      <Head x={x1} y={y1} degrees={direction(ends) + 180} />
    </>
  );
}

/** A movement or a flow: a heavy line with a head where it goes, or at both ends. */
export function Movement({ isBothWays = false, ...ends }: Ends & { isBothWays?: boolean }) {
  const { x1, y1, x2, y2 } = ends;
  const [dx, dy] = [(x2 - x1) / 8, (y2 - y1) / 8];
  return (
    <>
      <path className="heavy" d={`M${isBothWays ? x1 + dx : x1} ${isBothWays ? y1 + dy : y1}L${x2 - dx} ${y2 - dy}`} />
      <Head x={x2} y={y2} degrees={direction(ends)} size={13} />
      {isBothWays ? <Head x={x1} y={y1} degrees={direction(ends) + 180} size={13} /> : null}
    </>
  );
}

/** A letter that the legend explains, with a leader to what it names. */
export function Letter({ x, y, letter, to }: { x: number; y: number; letter: string; to?: string }) {
  return (
    <>
      {to ? <path className="lead" d={`M${x} ${y}${to}`} /> : null}
      <circle className="body" cx={x} cy={y} r="12" />
      <text x={x} y={y}>
        {letter}
      </text>
    </>
  );
}
