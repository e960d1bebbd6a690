import type * as fs from "node:fs";
import { Writable } from "node:stream";
import { expect, test, vi } from "vitest";
import { withPostedFile } from "@/lib/files/posted-file";

const FULL = Object.assign(new Error("no space left on device"), { code: "ENOSPC" });

// A disk on which nothing more can be written.
vi.mock("node:fs", async (original) => ({
  ...(await original<typeof fs>()),
  createWriteStream: () => new Writable({ write: (_chunk, _encoding, done) => setImmediate(done, FULL) }),
}));

async function* aFormOf(pieces: number, bytes: number) {
  yield Buffer.from('--x\r\ncontent-disposition: form-data; name="file"; filename="a.csv"\r\n\r\n');
  for (let piece = 0; piece < pieces; piece++) {
    yield Buffer.alloc(bytes);
    await new Promise((resolve) => setTimeout(resolve, 2));
  }
  yield Buffer.from("\r\n--x--\r\n");
}

test.each([
  ["small pieces, none of which waits for room", 100],
  ["large ones, each of which does", 100_000],
])("a full disk fails the form that is sent in %s, and nothing else", async (_, bytes) => {
  const form = { contentType: "multipart/form-data; boundary=x", body: aFormOf(5, bytes) };
  await expect(withPostedFile(form, 1_000_000, () => {}, async () => "kept")).rejects.toThrow(FULL);
});
