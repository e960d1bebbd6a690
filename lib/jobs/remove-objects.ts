import { z } from "zod";
import { removeObject } from "@/lib/files/store";

const payloadSchema = z.object({ keys: z.array(z.string()) });

/** Removes the objects that a transaction has discarded. Begun anew after a failure, it passes over what is gone. */
export async function removeObjects(payload: unknown): Promise<void> {
  for (const key of payloadSchema.parse(payload).keys) await removeObject(key);
}
