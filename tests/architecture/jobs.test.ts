import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { expect, test } from "vitest";

const lib = path.resolve(import.meta.dirname, "../../lib");
const read = (file: string) => readFileSync(path.join(lib, file), "utf8");
const namesIn = (source: string, name: RegExp) => [...source.matchAll(name)].flatMap(([, found]) => found ?? []);

test("every job that is queued or due by the clock is one the worker knows, and it knows no other", () => {
  const worker = read("jobs/worker.ts");
  const tasks = namesIn(worker, /^ {4}"([a-z-]+)":/gm);
  const byTheClock = namesIn(/crontab: "(.*)"/.exec(worker)?.[1] ?? "", /\* ([a-z-]+)/g);
  const queued = readdirSync(path.join(lib, "data")).filter((file) => file.endsWith(".ts")).flatMap((file) => namesIn(read(`data/${file}`), /add_job\('([a-z-]+)'/g));
  expect(byTheClock.length).toBeGreaterThan(3);
  expect(new Set([...queued, ...byTheClock])).toEqual(new Set(tasks));
});
