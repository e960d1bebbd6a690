import * as z from "zod/mini";
import { lineSchema } from "./text";

/** A view of the queue and the name to keep it under. */
export const savedFilterSchema = z.object({
  name: lineSchema(40, "Give it a name"),
  query: lineSchema(500),
});
