import { loadEditionInForce } from "@/lib/data/editions";
import { buildDemo } from "../../seed/build-demo";
import { dayOf } from "../../seed/calendar";
import { DEMO_PEOPLE } from "../../seed/demo-people";
import type { Picture } from "../../seed/photos/render";
import { SCENES, type SceneName } from "../../seed/photos/scenes";

/** The demo, a twentieth of its size and without its photos. */
export async function smallDemo() {
  const blank = (): Picture => ({ full: Buffer.from("full"), thumbnail: Buffer.from("small"), width: 4, height: 3, sha256: "" });
  return buildDemo({
    seed: 7,
    today: dayOf("2026-11-25"),
    scale: 0.05,
    edition: await loadEditionInForce(),
    staff: DEMO_PEOPLE.map(({ password: _, ...person }) => ({ ...person, passwordHash: "$argon2id$v=19$demo" })),
    pictures: new Map((Object.keys(SCENES) as SceneName[]).map((name, index) => [name, { ...blank(), sha256: index.toString(16).padStart(64, "0") }])),
    origin: "http://127.0.0.1:3000",
  });
}
