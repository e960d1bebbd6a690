import { createHash } from "node:crypto";
import sharp from "sharp";
import { Random } from "../random";
import { HEIGHT, WIDTH } from "./materials";
import { SCENES, type SceneName } from "./scenes";

export interface Picture {
  full: Buffer;
  thumbnail: Buffer;
  width: number;
  height: number;
  sha256: string;
}

/** Every picture of the demo. */
export async function renderScenes(): Promise<ReadonlyMap<SceneName, Picture>> {
  const names = Object.keys(SCENES) as SceneName[];
  return new Map(await Promise.all(names.map(async (name) => [name, await renderScene(name)] as const)));
}

/** Draws a scene as a camera would keep it: JPEG, a little grain, and a thumbnail 400 px wide. */
async function renderScene(name: SceneName): Promise<Picture> {
  const developed = await sharp(Buffer.from(SCENES[name].svg))
    .composite([{ input: grain(), raw: { width: WIDTH, height: HEIGHT, channels: 4 }, blend: "overlay" }])
    .removeAlpha()
    .raw()
    .toBuffer();
  const raw = { width: WIDTH, height: HEIGHT, channels: 3 } as const;
  const full = await sharp(developed, { raw }).jpeg({ quality: 80 }).toBuffer();
  const thumbnail = await sharp(developed, { raw }).resize({ width: 400 }).jpeg({ quality: 76 }).toBuffer();
  return { full, thumbnail, width: WIDTH, height: HEIGHT, sha256: createHash("sha256").update(full).digest("hex") };
}

let madeGrain: Buffer | undefined;

/** Grey noise around the middle, which an overlay turns into film grain. */
function grain(): Buffer {
  if (madeGrain) return madeGrain;
  const random = Random.forTheme(1, "grain");
  madeGrain = Buffer.alloc(WIDTH * HEIGHT * 4, 255);
  for (let pixel = 0; pixel < WIDTH * HEIGHT; pixel += 1) madeGrain.fill(random.whole(104, 152), pixel * 4, pixel * 4 + 3);
  return madeGrain;
}
