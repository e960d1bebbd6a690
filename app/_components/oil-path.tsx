import { OIL_PATH_PARTS, type OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import type { Say } from "@/lib/domain/say";

/** Where each balloon stands, and the leader from it to its part. */
const TAGS: Readonly<Record<OilPathPart, { x: number; y: number; leader: string }>> = {
  feed: { x: 436, y: 6, leader: "M447 30L470 84" },
  shaft: { x: 520, y: 6, leader: "M519 32L514 190" },
  drain: { x: 600, y: 391, leader: "M574 390L478 384" },
  crankcase: { x: 690, y: 506, leader: "M664 506H600" },
  vent: { x: 150, y: 446, leader: "M172 432L254 388" },
  intake: { x: 75, y: 96, leader: "M75 122V150" },
  compressor: { x: 262, y: 92, leader: "M278 113L330 168" },
  turbine: { x: 678, y: 92, leader: "M662 113L610 168" },
};

/**
 * The oil path of a turbo in section: the map of the product. Schematic: air comes in at the left, exhaust leaves at
 * the right, oil comes from above under pressure, passes the bearings and falls through the drain into the crankcase,
 * which breathes through the vent. A list of the same facts always stands beside it.
 *
 * @param id unique on the page, for the title's id
 * @param hot parts with evidence or blame: their balloon is filled
 * @param caption what this drawing shows here, for those who cannot see it
 * @param say for the words in the drawing, of the part `browser` of the message files
 */
export function OilPath({ id, hot = [], caption = "", say }: { id: string; hot?: readonly OilPathPart[]; caption?: string; say: Say }) {
  const marked = hot.map((part) => `${OIL_PATH_PARTS[part].balloon} ${say(`browser.parts.${part}`)}`);
  const shown = caption || say("browser.oilPath.name");
  // One string: React does not hydrate a title of several.
  const title = marked.length > 0 ? say("browser.oilPath.marked", { caption: shown, parts: marked.join(", ") }) : shown;
  return (
    <svg className="oil-path" viewBox="0 -26 900 578" role="img" aria-labelledby={`${id}-title`}>
      <title id={`${id}-title`}>{title}</title>

      {/* filter box, duct, air coming in */}
      <path className="body" d="M110 178H300V242H110z" />
      <path className="body" d="M40 150h70v120H40z" />
      <path className="thin" d="M52 160v100M62 160v100M72 160v100M82 160v100M92 160v100" />
      <path className="air" d="M4 224H38M122 224H278" />
      <path className="solid" d="M292 224l-14-6v12z" />
      <text x="140" y="205">
        {say("browser.oilPath.air")}
      </text>

      {/* compressor cover: scroll passages above and below, cut */}
      <path className="cut" d="M300 178c12-4 22-14 31-24l24-44c-6-30 6-58 28-66h16v88h-26c-10 32-30 46-73 54z" />
      <path className="cut" d="M300 242c12 4 22 14 31 24l24 44c-6 30 6 58 28 66h16v-88h-26c-10-32-30-46-73-54z" />
      <circle className="body" cx="374" cy="94" r="27" />
      <circle className="body" cx="374" cy="326" r="27" />
      {/* turbine housing */}
      <path className="cut" d="M640 178c-12-4-22-14-31-24l-24-44c6-30-6-58-28-66h-16v88h26c10 32 30 46 73 54z" />
      <path className="cut" d="M640 242c-12 4-22 14-31 24l-24 44c6 30-6 58-28 66h-16v-88h26c10-32 30-46 73-54z" />
      <circle className="body" cx="566" cy="94" r="27" />
      <circle className="body" cx="566" cy="326" r="27" />
      {/* exhaust pipe */}
      <path className="body" d="M640 178H862V242H640z" />
      <path className="air" d="M655 224H862" />
      <path className="solid" d="M894 224l-14-6v12zM862 223h20v2h-20z" />
      <text x="730" y="205">
        {say("browser.oilPath.exhaust")}
      </text>

      {/* bearing housing in section, with the feed boss above and the drain flange below */}
      <path className="cut" d="M400 130h46V90h48v40h46v160h-36v40h-68v-40h-36z" />
      {/* drain cavity and line: oil falling by its weight alone */}
      <path className="oil" d="M420 236h100v36c-10 14-24 18-32 22v38h-36v-38c-8-4-22-8-32-22z" />
      <path className="oil" d="M456 332h28v92h-28z" />
      {/* feed galleries */}
      <path className="flow" d="M470 84v66M426 150v34M426 150h88M470 150v38M514 150v38" />

      {/* wheels: hub and blades, backs to the bearing housing */}
      <path className="body" d="M312 197c44-6 60-30 66-56h18v138h-18c-6-26-22-50-66-56z" />
      <path className="thin" d="M336 193c28-9 40-24 48-50M336 227c28 9 40 24 48 50M324 204l66-5M324 216l66 5" />
      <path className="body" d="M628 197c-44-6-60-30-66-56h-18v138h18c6-26 22-50 66-56z" />
      <path className="thin" d="M604 193c-28-9-40-24-48-50M604 227c-28 9-40 24-48 50M616 204l-66-5M616 216l-66 5" />
      {/* thrust bearing and two journal bearings about the shaft */}
      <path className="body" d="M420 184h12v52h-12zM450 188h28v13h-28zM450 219h28v13h-28zM500 188h28v13h-28zM500 219h28v13h-28z" />
      <path className="body" d="M304 202h332v16H304z" />
      <path className="centre" d="M12 210H880" />
      <path className="ring" d="M406 197v26M534 197v26" />

      {/* crankcase with oil, crank and the vent to the intake */}
      <path className="open" d="M330 424h290v118H330z" />
      <path className="oil" d="M332 506c24-8 48-8 72 0s48 8 72 0 48-8 72 0 48 8 70 0v34H332z" />
      <circle className="thin" cx="552" cy="466" r="26" />
      <path className="thin" d="M552 466l18-14" />
      <path className="open" d="M350 424v-38H206V242M368 424v-58H226V242" />
      <path className="body" d="M252 358h52v36h-52z" />
      <path className="thin" d="M262 363v26M271 363v26M280 363v26M289 363v26" />

      {/* the fall of the drain, dimensioned */}
      <path className="lead" d="M508 331h152M628 424h32M648 333v88" />
      <path className="solid" d="M648 331l-5 12h10zM648 424l-5-12h10z" />
      <text x="658" y="385">
        {say("browser.oilPath.fall")}
      </text>

      {(Object.keys(TAGS) as OilPathPart[]).map((part) => {
        const { x, y, leader } = TAGS[part];
        return (
          <g key={part} className={hot.includes(part) ? "tag hot" : "tag"}>
            <path className="lead" d={leader} />
            <circle cx={x} cy={y} r="26" />
            <text x={x} y={y}>
              {OIL_PATH_PARTS[part].balloon}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
