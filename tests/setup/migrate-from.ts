import { applyMigrations } from "@/lib/data/migrations";

/** A process of its own that migrates, for the test that kills it: `migrate-from.ts <database url> <folder>`. */
const [, , url = "", folder = ""] = process.argv;
await applyMigrations(url, folder);
