import "server-only";
import { appliedNames, migrationNames } from "@/lib/data/applied-migrations";
import { connectionPool, database } from "@/lib/data/client";
import { log } from "@/lib/log";

/**
 * Whether the database answers, has every migration and holds an edition in force. Open to anybody: it tells nothing
 * else.
 */
export async function isReady(): Promise<boolean> {
  try {
    const [names, applied, editions] = await Promise.all([migrationNames(), appliedNames(connectionPool()), database().knowledgeEdition.count({ where: { promotedAt: { not: null } } })]);
    return editions > 0 && names.every((name) => applied.includes(name));
  } catch (error) {
    log.error({ event: "not-ready", error: error instanceof Error ? error.name : "unknown" });
    return false;
  }
}
