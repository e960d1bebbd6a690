import { disconnect } from "@/lib/data/client";
import { rebuildReportCells } from "@/lib/data/report-cells";
import { main } from "./steps.mjs";

/** `npm run rebuild-reports`: makes the cells of the reports anew from the claims and shipments at DATABASE_URL, while the work goes on. */
await main(async () => {
  const began = performance.now();
  await rebuildReportCells();
  await disconnect();
  console.log(`The cells of the reports were made anew in ${((performance.now() - began) / 1000).toFixed(1)} s.`);
});
