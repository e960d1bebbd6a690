import { mkdtemp, readdir, rm, writeFile } from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import S3rver from "s3rver";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { bucketStore, folderStore, type ObjectStore } from "@/lib/files/store";

let folder = "";
let server: S3rver;
const stores = {} as Record<"folder" | "bucket", ObjectStore>;

beforeAll(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), "fit-or-fault-store-"));
  server = new S3rver({ address: "127.0.0.1", port: 0, directory: path.join(folder, "bucket"), silent: true, configureBuckets: [{ name: "photos" }] });
  const { port } = await server.run();
  stores.folder = folderStore(path.join(folder, "files"));
  // The server's own account for tests.
  stores.bucket = bucketStore("photos", { S3_REGION: "us-east-1", S3_ENDPOINT: `http://127.0.0.1:${port}`, S3_ACCESS_KEY: "S3RVER", S3_SECRET_KEY: "S3RVER" });
});

afterAll(async () => {
  await server.close();
  await rm(folder, { recursive: true, force: true });
});

describe.each(["folder", "bucket"] as const)("a store in a %s", (where) => {
  const bytes = Uint8Array.from({ length: 300_000 }, (_, place) => place % 256);

  test("gives back what was put, byte for byte, and the latest", async () => {
    await stores[where].put("claims/a1/b2", Uint8Array.of(1), "image/jpeg");
    await stores[where].put("claims/a1/b2", bytes, "image/jpeg");
    expect(Buffer.from((await stores[where].get("claims/a1/b2")) ?? []).equals(Buffer.from(bytes))).toBe(true);
  });

  test("takes a file of this machine and gives it back as a stream", async () => {
    const file = path.join(folder, `${where}.bin`);
    await writeFile(file, bytes);
    await stores[where].putFile("imports/a1", file, "text/csv");
    const stream = await stores[where].read("imports/a1");
    expect(Buffer.concat((await stream?.toArray()) ?? []).equals(Buffer.from(bytes))).toBe(true);
    expect(await stores[where].read("imports/none")).toBeNull();
  });

  test("has nothing under a key that was never put, or was removed", async () => {
    expect(await stores[where].get("claims/a1/none")).toBeNull();
    await stores[where].put("claims/a1/gone", bytes, "image/jpeg");
    await stores[where].remove("claims/a1/gone");
    expect(await stores[where].get("claims/a1/gone")).toBeNull();
    await stores[where].remove("claims/a1/gone");
  });

  test.each(["../outside", "/claims/a1", "claims//a1", "claims/A1", "claims/a1.jpg", "claims/a\u0000", ""])("takes no key like %j", async (key) => {
    await expect(stores[where].put(key, bytes, "image/jpeg")).rejects.toThrow("objects have keys");
    await expect(stores[where].get(key)).rejects.toThrow("objects have keys");
    await expect(stores[where].remove(key)).rejects.toThrow("objects have keys");
  });
});

test("a folder holds nothing but the objects", async () => {
  await Promise.all(Array.from({ length: 5 }, () => stores.folder.put("claims/c3/same", Uint8Array.of(7), "image/jpeg")));
  expect(await readdir(path.join(folder, "files/claims/c3"))).toEqual(["same"]);
});
