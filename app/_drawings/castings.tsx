/** Parts of unit and engine that many drawings show. */

/** The unit seen along its shaft, the oil outlet below, turned by so many degrees; (x, y) is the shaft. */
export function UnitEnd({ x, y, size = 1, degrees = 0 }: { x: number; y: number; size?: number; degrees?: number }) {
  return (
    <g transform={`translate(${x} ${y}) rotate(${degrees}) scale(${size})`}>
      <path className="body" d="M-13 34h26v14h-26z" />
      <path className="body" d="M-20 46h40v8h-40z" />
      <circle className="body" r="38" />
      <circle className="thin" r="24" />
      <circle className="thin" r="6" />
      <path className="thin" d="M0 -24C8 -16 8 -10 4 -5M21 -12C19 -1 13 3 6 2M21 12C10 18 4 14 2 6M0 24C-8 16 -8 10 -4 5M-21 12C-19 1 -13 -3 -6 -2M-21 -12C-10 -18 -4 -14 -2 -6" />
      <path className="body" d="M-8 -50h16v13h-16z" />
    </g>
  );
}

/** The unit from the side: compressor left, turbine right, feed above, outlet below; (x, y) is the middle of the shaft. */
export function UnitSide({ x, y, size = 1, degrees = 0 }: { x: number; y: number; size?: number; degrees?: number }) {
  return (
    <g transform={`translate(${x} ${y}) rotate(${degrees}) scale(${size})`}>
      <path className="body" d="M-8 -40h16v16h-16z" />
      <path className="body" d="M-13 22h26v18h-26z" />
      <path className="body" d="M-20 38h40v8h-40z" />
      <path className="body" d="M-28 -26h56v50h-56z" />
      <path className="body" d="M-88 -16h24v32h-24z" />
      <rect className="body" x="-64" y="-42" width="36" height="84" rx="12" />
      <path className="body" d="M64 -16h28v32h-28z" />
      <rect className="body" x="28" y="-42" width="36" height="84" rx="12" />
      <path className="centre" d="M-98 0H102" />
    </g>
  );
}

/** A crankcase in section with oil in it; (x, y) is its upper left corner. */
export function Crankcase({ x, y, width, height, level = 26 }: { x: number; y: number; width: number; height: number; level?: number }) {
  return (
    <>
      <path className="cut" d={`M${x} ${y}h${width}v${height}h${-width}zM${x + 9} ${y + 9}v${height - 18}h${width - 18}v${18 - height}z`} fillRule="evenodd" />
      <path className="oil" d={`M${x + 10} ${y + height - 10 - level}h${width - 20}v${level}h${20 - width}z`} />
    </>
  );
}

/** A wheel seen from its nose; its blades nicked or whole. */
export function WheelFront({ x, y, radius, isNicked = false }: { x: number; y: number; radius: number; isNicked?: boolean }) {
  const blade = isNicked ? "M0 -6C7 -15 5 -22 9 -26L5 -30L11 -33L4 -37" : "M0 -6C7 -16 8 -28 4 -39";
  return (
    <g transform={`translate(${x} ${y}) scale(${radius / 40})`}>
      <circle className="body" r="40" />
      {[...Array(9).keys()].map((place) => (
        <path key={place} className={isNicked && place % 3 === 0 ? "open" : "thin"} d={isNicked && place % 3 === 0 ? blade : "M0 -6C7 -16 8 -28 4 -39"} transform={`rotate(${place * 40})`} />
      ))}
      <path className="body" d="M0 -8L7 -4V4L0 8L-7 4V-4Z" />
    </g>
  );
}

/** The shaft in its bearings in section, wheels at both ends; (x, y) is the middle of the shaft. */
export function ShaftInHousing({ x, y }: { x: number; y: number }) {
  return (
    <g transform={`translate(${x} ${y})`}>
      <path className="cut" d="M-52 -44h104v28h-104zM-52 16h32v32h-32zM20 16h32v32h-32z" />
      <path className="body" d="M-44 -16h22v9h-22zM22 -16h22v9h-22zM-44 7h22v9h-22zM22 7h22v9h-22z" />
      <path className="body" d="M-56 -20h6v40h-6z" />
      <path className="body" d="M-112 -7h224v14h-224z" />
      <path className="body" d="M-100 -9C-80 -12 -70 -24 -66 -42H-58V42H-66C-70 24 -80 12 -100 9Z" />
      <path className="body" d="M100 -9C80 -12 70 -24 66 -38H58V38H66C70 24 80 12 100 9Z" />
      <path className="centre" d="M-128 0H128" />
    </g>
  );
}
