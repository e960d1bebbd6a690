import "server-only";
import { database } from "@/lib/data/client";
import { log } from "@/lib/log";

/** Whether the database answers and holds an edition in force. Open to anybody: it tells nothing else. */
export async function isReady(): Promise<boolean> {
  try {
    return (await database().knowledgeEdition.count({ where: { promotedAt: { not: null } } })) > 0;
  } catch (error) {
    log.error({ event: "not-ready", error: error instanceof Error ? error.name : "unknown" });
    return false;
  }
}
