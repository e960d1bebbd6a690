import { runMigrations } from "graphile-worker";
import { disconnect } from "@/lib/data/client";
import { applyMigrations } from "@/lib/data/migrations";
import { loadReferenceData } from "@/lib/data/reference-data";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { env } from "@/lib/env";
import { editionSchema } from "@/lib/inputs/edition";

/** Brings the database of DATABASE_URL up to date: the migrations, then what every installation has. */
const applied = await applyMigrations(env.DATABASE_URL);
// The job queue keeps its own tables; mail is queued before any worker has ever run.
await runMigrations({ connectionString: env.DATABASE_URL });
await loadReferenceData(editionSchema.parse(edition1));
await disconnect();
console.log(applied.length ? `  applied ${applied.join(", ")}` : "  nothing new");
// Prisma leaves the timer of a transaction running, which would keep this process for 10 s more.
process.exit();
