import { carryOutImports } from "@/lib/operations/carry-out-imports";

/** A worker of its own, for the test that kills it while it brings in a file. */
await carryOutImports();
