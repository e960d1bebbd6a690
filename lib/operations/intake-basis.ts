import "server-only";
import { loadEditionInForce } from "@/lib/data/editions";
import { loadSettings } from "@/lib/data/settings";
import { stakesOf } from "@/lib/domain/diagnosis/stakes";
import type { Basis } from "@/lib/domain/intake/intake-path";

/** What the questions of an intake are weighed by. Part of other operations. */
export async function loadBasis(): Promise<Basis> {
  const [edition, settings] = await Promise.all([loadEditionInForce(), loadSettings()]);
  return { edition, stakes: stakesOf(settings) };
}
