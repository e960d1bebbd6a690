import { applyMigrations } from "@/lib/data/migrations";
import { disconnect } from "@/lib/data/client";
import { loadReferenceData } from "@/lib/data/reference-data";
import { env } from "@/lib/env";

const applied = await applyMigrations(env.DATABASE_URL);
await loadReferenceData();
await disconnect();
console.log(applied.length ? `  applied ${applied.join(", ")}` : "  nothing new");
