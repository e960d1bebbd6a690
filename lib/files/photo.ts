import "server-only";
import { createHash } from "node:crypto";
import { Worker } from "node:worker_threads";
import { fileTypeFromBuffer } from "file-type";
import sharp from "sharp";
import { MOST_PHOTO_BYTES } from "@/lib/domain/intake/fields";

/** More than any phone takes; a small file can unfold into far more. */
const MOST_PIXELS = 64_000_000;
const FULL_PX = 2000;
const SMALL_PX = 400;
const HEIC_TIMEOUT_MS = 20_000;

export type PhotoRefusal = "empty" | "too-big" | "not-a-photo" | "too-many-pixels" | "damaged";

export interface PreparedPhoto {
  full: Uint8Array;
  small: Uint8Array;
  width: number;
  height: number;
  /** Of what was sent, hexadecimal: the same picture twice is one photo. */
  sha256: string;
}

/**
 * A stranger's bytes as a picture of our own making: type told by content, turned upright, at most 2000 px, encoded anew
 * as JPEG, so that neither place nor camera nor anything hidden comes with it.
 */
export async function preparePhoto(bytes: Uint8Array): Promise<({ ok: true } & PreparedPhoto) | { ok: false; reason: PhotoRefusal }> {
  if (bytes.length === 0) return { ok: false, reason: "empty" };
  if (bytes.length > MOST_PHOTO_BYTES) return { ok: false, reason: "too-big" };
  const type = (await fileTypeFromBuffer(bytes))?.mime;
  const isHeif = type === "image/heic" || type === "image/heif";
  if (!isHeif && type !== "image/jpeg" && type !== "image/png" && type !== "image/webp") return { ok: false, reason: "not-a-photo" };
  if (isHeif && pixelsOfHeif(bytes) > MOST_PIXELS) return { ok: false, reason: "too-many-pixels" };
  try {
    const readable = isHeif ? await oneAtATime(() => decodeHeif(bytes)) : bytes;
    const upright = sharp(readable, { limitInputPixels: MOST_PIXELS, failOn: "error" }).rotate();
    const { data: full, info } = await upright.resize({ width: FULL_PX, height: FULL_PX, fit: "inside", withoutEnlargement: true }).flatten({ background: "#fff" }).jpeg({ quality: 82, mozjpeg: true }).toBuffer({ resolveWithObject: true });
    const small = await sharp(full).resize({ width: SMALL_PX, height: SMALL_PX, fit: "inside", withoutEnlargement: true }).jpeg({ quality: 75 }).toBuffer();
    return { ok: true, full, small, width: info.width, height: info.height, sha256: createHash("sha256").update(bytes).digest("hex") };
  } catch (error) {
    return { ok: false, reason: error instanceof Error && /pixel limit/i.test(error.message) ? "too-many-pixels" : "damaged" };
  }
}

/** The largest picture a HEIF file announces: each `ispe` box is a version, a width and a height. */
function pixelsOfHeif(bytes: Uint8Array): number {
  const view = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let most = 0;
  for (let at = view.indexOf("ispe"); at !== -1 && at + 16 <= view.length; at = view.indexOf("ispe", at + 4)) {
    most = Math.max(most, view.readUInt32BE(at + 8) * view.readUInt32BE(at + 12));
  }
  return most;
}

let last: Promise<unknown> = Promise.resolve();

/** Decoding HEIF takes much memory; one at a time in a process is enough for phones. */
function oneAtATime<T>(work: () => Promise<T>): Promise<T> {
  const next = last.then(work, work);
  last = next.catch(() => {});
  return next;
}

/** Decodes in a thread of its own that ends when it takes too long; the decoder is WebAssembly fed by strangers. */
function decodeHeif(bytes: Uint8Array): Promise<Uint8Array> {
  const worker = new Worker(
    `const { parentPort, workerData } = require("node:worker_threads");
     require("heic-convert")({ buffer: workerData, format: "JPEG", quality: 0.95 }).then((jpeg) => parentPort.postMessage(jpeg));`,
    { eval: true, workerData: bytes, resourceLimits: { maxOldGenerationSizeMb: 512 } },
  );
  return new Promise<Uint8Array>((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error("decoding took too long")), HEIC_TIMEOUT_MS);
    worker.once("message", resolve);
    worker.once("error", reject);
    worker.once("exit", () => reject(new Error("the decoder ended")));
    const stop = () => clearTimeout(timer);
    worker.once("message", stop).once("error", stop);
  }).finally(() => worker.terminate());
}
