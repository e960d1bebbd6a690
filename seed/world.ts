import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import type { Instant } from "./calendar";
import type { Picture } from "./photos/render";
import type { SceneName } from "./photos/scenes";
import type { Random } from "./random";
import type { Tables } from "./tables";

/** What every claim of the demo is told in. */
export interface World {
  random: Random;
  tables: Tables;
  /** Nothing that would happen later has happened. */
  now: Instant;
  edition: Edition;
  staff: { support: readonly [string, string]; bench: string };
  pictures: ReadonlyMap<SceneName, Picture>;
}
