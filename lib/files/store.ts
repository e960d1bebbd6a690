import "server-only";
import { mkdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { DeleteObjectCommand, GetObjectCommand, NoSuchKey, PutObjectCommand, S3Client } from "@aws-sdk/client-s3";
import { env } from "@/lib/env";

interface ObjectStore {
  put(key: string, bytes: Uint8Array, contentType: string): Promise<void>;
  get(key: string): Promise<Uint8Array | null>;
  remove(key: string): Promise<void>;
}

/** Keeps an object. Keys are ours (`claims/<id>/<id>`), never a name a stranger chose. */
export function putObject(key: string, bytes: Uint8Array, contentType: string): Promise<void> {
  return store().put(checked(key), bytes, contentType);
}

/** The bytes of an object, or null when there is none. */
export function getObject(key: string): Promise<Uint8Array | null> {
  return store().get(checked(key));
}

/** Removes an object; it is no error when there is none. */
export function removeObject(key: string): Promise<void> {
  return store().remove(checked(key));
}

function checked(key: string): string {
  if (!/^[a-z0-9-]+(\/[a-z0-9-]+)*$/.test(key)) throw new Error(`objects have keys of lower case letters, digits and hyphens, not ${JSON.stringify(key)}`);
  return key;
}

let opened: ObjectStore | undefined;

function store(): ObjectStore {
  opened ??= env.S3_BUCKET ? bucketStore(env.S3_BUCKET) : folderStore(env.FILES_FOLDER);
  return opened;
}

function folderStore(folder: string): ObjectStore {
  const at = (key: string) => path.join(folder, key);
  return {
    async put(key, bytes) {
      await mkdir(path.dirname(at(key)), { recursive: true });
      // Written beside and renamed: a crash leaves no half picture under the key.
      const beside = `${at(key)}.${process.pid}.part`;
      await writeFile(beside, bytes);
      await rename(beside, at(key));
    },
    async get(key) {
      try {
        return await readFile(at(key));
      } catch (error) {
        if (isNodeError(error) && error.code === "ENOENT") return null;
        throw error;
      }
    },
    async remove(key) {
      await rm(at(key), { force: true });
    },
  };
}

function bucketStore(bucket: string): ObjectStore {
  const client = new S3Client({
    region: env.S3_REGION,
    ...(env.S3_ENDPOINT ? { endpoint: env.S3_ENDPOINT, forcePathStyle: true } : {}),
    ...(env.S3_ACCESS_KEY && env.S3_SECRET_KEY ? { credentials: { accessKeyId: env.S3_ACCESS_KEY, secretAccessKey: env.S3_SECRET_KEY } } : {}),
    // The default checksums corrupt streamed puts on some S3-compatible servers.
    requestChecksumCalculation: "WHEN_REQUIRED",
    responseChecksumValidation: "WHEN_REQUIRED",
  });
  return {
    async put(key, bytes, contentType) {
      await client.send(new PutObjectCommand({ Bucket: bucket, Key: key, Body: bytes, ContentType: contentType }));
    },
    async get(key) {
      try {
        const answer = await client.send(new GetObjectCommand({ Bucket: bucket, Key: key }));
        return (await answer.Body?.transformToByteArray()) ?? null;
      } catch (error) {
        if (error instanceof NoSuchKey) return null;
        throw error;
      }
    },
    async remove(key) {
      await client.send(new DeleteObjectCommand({ Bucket: bucket, Key: key }));
    },
  };
}

function isNodeError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && "code" in error;
}
