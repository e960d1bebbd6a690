import { readdir } from "node:fs/promises";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { main } from "./steps.mjs";

/** `npm run bench`: runs every tests/bench/*.bench.ts, one after the other; with a word, those whose name has it. */
await main(async () => {
  const folder = path.resolve("tests/bench");
  const word = process.argv[2] ?? "";
  const names = (await readdir(folder)).filter((name) => name.endsWith(".bench.ts") && name.includes(word)).sort();
  for (const name of names) {
    console.log(`\n== ${name}`);
    const began = performance.now();
    await import(pathToFileURL(path.join(folder, name)).href);
    console.log(`   ${((performance.now() - began) / 1000).toFixed(1)} s in all`);
  }
  if (!names.length) console.log("There is no such bench.");
});
