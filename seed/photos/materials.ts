/** Size of a demo picture, px. */
export const WIDTH = 1200;
export const HEIGHT = 900;

const DEFINITIONS = `
<linearGradient id="bay" x1="0" y1="0" x2="0.3" y2="1"><stop offset="0" stop-color="#4b5052"/><stop offset="0.55" stop-color="#2b2f31"/><stop offset="1" stop-color="#151718"/></linearGradient>
<linearGradient id="bench" x1="0" y1="0" x2="0.2" y2="1"><stop offset="0" stop-color="#b9b3a4"/><stop offset="1" stop-color="#7d776a"/></linearGradient>
<linearGradient id="cast" x1="0" y1="0" x2="0.4" y2="1"><stop offset="0" stop-color="#b5b2ab"/><stop offset="0.5" stop-color="#84817b"/><stop offset="1" stop-color="#4a4845"/></linearGradient>
<linearGradient id="iron" x1="0" y1="0" x2="0.4" y2="1"><stop offset="0" stop-color="#8d6f5a"/><stop offset="0.5" stop-color="#5c4639"/><stop offset="1" stop-color="#2c211b"/></linearGradient>
<linearGradient id="steel" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#6e7275"/><stop offset="0.35" stop-color="#e4e6e6"/><stop offset="0.6" stop-color="#9a9ea0"/><stop offset="1" stop-color="#46494b"/></linearGradient>
<radialGradient id="bore" cx="0.5" cy="0.45" r="0.55"><stop offset="0" stop-color="#050505"/><stop offset="0.8" stop-color="#1b1b1b"/><stop offset="1" stop-color="#5a5854"/></radialGradient>
<radialGradient id="oil" cx="0.35" cy="0.25" r="0.9"><stop offset="0" stop-color="#8a5a1c"/><stop offset="0.4" stop-color="#3a2208"/><stop offset="1" stop-color="#120a03"/></radialGradient>
<radialGradient id="lamp" cx="0.42" cy="0.36" r="0.75"><stop offset="0" stop-color="#fff6dc" stop-opacity="0.4"/><stop offset="0.45" stop-color="#fff6dc" stop-opacity="0.04"/><stop offset="1" stop-color="#000" stop-opacity="0.5"/></radialGradient>
<pattern id="mesh" width="14" height="14" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="14" height="14" fill="#8f8b80"/><path d="M0 0H14M0 0V14" stroke="#3b3932" stroke-width="5"/></pattern>
<filter id="soft"><feGaussianBlur stdDeviation="7"/></filter>
<filter id="sharp"><feGaussianBlur stdDeviation="0.8"/></filter>`;

/** A whole picture: the scene before its background, under a hand lamp. */
export function picture(background: "bay" | "bench", scene: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}" viewBox="0 0 ${WIDTH} ${HEIGHT}"><defs>${DEFINITIONS}</defs>
<rect width="${WIDTH}" height="${HEIGHT}" fill="url(#${background})"/><g filter="url(#sharp)">${scene}</g><rect width="${WIDTH}" height="${HEIGHT}" fill="url(#lamp)"/></svg>`;
}

/** A hose or pipe along a path: shadow, body, gleam. */
export function hose(path: string, width: number, body = "#1d1f20", gleam = "#5d6265"): string {
  const line = (colour: string, thickness: number, more = "") =>
    `<path d="${path}" fill="none" stroke="${colour}" stroke-width="${thickness}" stroke-linecap="round" stroke-linejoin="round" ${more}/>`;
  return [
    line("#000", width * 1.1, 'opacity="0.45" filter="url(#soft)" transform="translate(10 16)"'),
    line("#0b0c0c", width),
    line(body, width * 0.86),
    line(gleam, width * 0.2, `opacity="0.65" transform="translate(${-width * 0.16} ${-width * 0.16})"`),
  ].join("");
}

export function bolt(x: number, y: number, radius: number): string {
  const corners = Array.from({ length: 6 }, (_, corner) => {
    const angle = (corner * Math.PI) / 3 + 0.3;
    return `${(x + radius * Math.cos(angle)).toFixed(1)},${(y + radius * Math.sin(angle)).toFixed(1)}`;
  }).join(" ");
  return `<circle cx="${x + 3}" cy="${y + 5}" r="${radius * 1.3}" fill="#000" opacity="0.35"/><circle cx="${x}" cy="${y}" r="${radius * 1.3}" fill="#7f807d"/><polygon points="${corners}" fill="url(#steel)" stroke="#333" stroke-width="1.5"/>`;
}

/** A worm-drive clip across a hose, turned by `angle` degrees. */
export function clip(x: number, y: number, width: number, angle: number): string {
  return `<g transform="translate(${x} ${y}) rotate(${angle})"><rect x="${-width / 2}" y="-12" width="${width}" height="24" rx="4" fill="url(#steel)"/><rect x="-14" y="-20" width="28" height="40" rx="4" fill="#a9acad" stroke="#444" stroke-width="2"/><path d="M-8 0H8" stroke="#333" stroke-width="4"/></g>`;
}

/** Wet oil with a gleam on it. */
export function oil(path: string, opacity = 0.92): string {
  return `<path d="${path}" fill="url(#oil)" opacity="${opacity}"/><path d="${path}" fill="none" stroke="#c9944a" stroke-width="3" opacity="0.28"/>`;
}

/** The unit seen from the side: compressor housing on the left, bearing housing, turbine housing on the right. */
export function unitFromTheSide(x: number, y: number): string {
  return `<g transform="translate(${x} ${y})">
<ellipse cx="20" cy="190" rx="330" ry="34" fill="#000" opacity="0.4" filter="url(#soft)"/>
<path d="M-230 -40C-250 -170 -60 -190 -40 -60L-40 90C-70 170 -220 150 -230 40Z" fill="url(#cast)" stroke="#2d2c2a" stroke-width="3"/>
<rect x="-300" y="-58" width="80" height="116" rx="10" fill="url(#cast)" stroke="#2d2c2a" stroke-width="3"/><rect x="-312" y="-68" width="22" height="136" rx="6" fill="#77746e"/>
<rect x="-44" y="-74" width="30" height="160" fill="#6b6964"/><rect x="-14" y="-62" width="120" height="128" rx="12" fill="url(#cast)" stroke="#2d2c2a" stroke-width="3"/>
<rect x="14" y="-104" width="60" height="46" rx="6" fill="#8a8781"/><rect x="10" y="60" width="72" height="34" rx="4" fill="#6f6c66"/>
<path d="M104 -84C220 -190 350 -110 330 20C320 130 190 170 104 92Z" fill="url(#iron)" stroke="#1d1510" stroke-width="3"/>
<rect x="318" y="-66" width="92" height="120" rx="8" fill="url(#iron)" stroke="#1d1510" stroke-width="3"/>
${bolt(26, 78, 9)}${bolt(68, 78, 9)}${bolt(-30, -50, 8)}${bolt(-30, 62, 8)}${bolt(92, -44, 8)}${bolt(92, 50, 8)}</g>`;
}

/** A wheel seen along the shaft: hub, nut and curved blades. */
export function wheel(x: number, y: number, radius: number, blades: number, colour: string): string {
  const paths = Array.from({ length: blades }, (_, blade) => {
    const turn = (blade * 360) / blades;
    const r = radius;
    return `<path transform="rotate(${turn.toFixed(1)})" d="M${r * 0.2} ${-r * 0.06}C${r * 0.5} ${-r * 0.3} ${r * 0.8} ${-r * 0.26} ${r * 0.97} ${-r * 0.05}L${r * 0.93} ${r * 0.07}C${r * 0.7} ${-r * 0.12} ${r * 0.45} ${-r * 0.1} ${r * 0.2} ${r * 0.09}Z" fill="${colour}" stroke="#1d1d1d" stroke-width="2"/>`;
  }).join("");
  return `<g transform="translate(${x} ${y})"><circle r="${radius}" fill="#191919"/>${paths}<circle r="${radius * 0.24}" fill="url(#cast)" stroke="#222" stroke-width="3"/></g>${bolt(x, y, radius * 0.11)}`;
}
