import { parentPort, workerData } from "node:worker_threads";
import { register } from "tsx/esm/api";

// A thread does not take over that its process reads TypeScript.
register();
const { reckonLook } = await import("../domain/reporting/signals-look.ts");
parentPort?.postMessage(reckonLook(workerData));
