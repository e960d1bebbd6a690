import "server-only";
import { randomUUID } from "node:crypto";
import { createReadStream } from "node:fs";
import { copyFile, mkdir, open, readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import path from "node:path";
import { Readable } from "node:stream";
import { DeleteObjectCommand, GetObjectCommand, NoSuchKey, PutObjectCommand, S3Client } from "@aws-sdk/client-s3";
import { env, type Settings } from "@/lib/env";

/** Keeps objects under keys of ours (`claims/<id>/<id>`), never under a name a stranger chose; another key throws. */
export interface ObjectStore {
  put(key: string, bytes: Uint8Array, contentType: string): Promise<void>;
  /** The bytes, or null when there is none. */
  get(key: string): Promise<Uint8Array | null>;
  /** Puts the content of a file on this machine, without holding it in memory; the file stays. */
  putFile(key: string, file: string, contentType: string): Promise<void>;
  /** The bytes as they are read, or null when there is none. Who takes it ends or destroys it. */
  read(key: string): Promise<Readable | null>;
  /** It is no error when there is none. */
  remove(key: string): Promise<void>;
}

/** Keeps an object. */
export function putObject(key: string, bytes: Uint8Array, contentType: string): Promise<void> {
  return store().put(key, bytes, contentType);
}

/** The bytes of an object, or null when there is none. */
export function getObject(key: string): Promise<Uint8Array | null> {
  return store().get(key);
}

/** Keeps the content of a file on this machine as an object; the file stays. */
export function putObjectFile(key: string, file: string, contentType: string): Promise<void> {
  return store().putFile(key, file, contentType);
}

/** An object as a stream, or null when there is none. */
export function readObject(key: string): Promise<Readable | null> {
  return store().read(key);
}

/** Removes an object; it is no error when there is none. */
export function removeObject(key: string): Promise<void> {
  return store().remove(key);
}

let opened: ObjectStore | undefined;

function store(): ObjectStore {
  opened ??= env.S3_BUCKET ? bucketStore(env.S3_BUCKET, env) : folderStore(env.FILES_FOLDER);
  return opened;
}

function checked(key: string): string {
  if (!/^[a-z0-9-]+(\/[a-z0-9-]+)*$/.test(key)) throw new Error(`objects have keys of lower case letters, digits and hyphens, not ${JSON.stringify(key)}`);
  return key;
}

export function folderStore(folder: string): ObjectStore {
  const at = (key: string) => path.join(folder, checked(key));
  return {
    async put(key, bytes) {
      await mkdir(path.dirname(at(key)), { recursive: true });
      // Written beside and renamed: a crash leaves no half picture under the key.
      const beside = `${at(key)}.${randomUUID()}.part`;
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
    async putFile(key, file) {
      await mkdir(path.dirname(at(key)), { recursive: true });
      const beside = `${at(key)}.${randomUUID()}.part`;
      await copyFile(file, beside);
      await rename(beside, at(key));
    },
    async read(key) {
      try {
        return (await open(at(key))).createReadStream();
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

export function bucketStore(bucket: string, settings: Pick<Settings, "S3_REGION" | "S3_ENDPOINT" | "S3_ACCESS_KEY" | "S3_SECRET_KEY">): ObjectStore {
  const { S3_REGION: region, S3_ENDPOINT: endpoint, S3_ACCESS_KEY: accessKeyId, S3_SECRET_KEY: secretAccessKey } = settings;
  const client = new S3Client({
    region,
    ...(endpoint ? { endpoint, forcePathStyle: true } : {}),
    ...(accessKeyId && secretAccessKey ? { credentials: { accessKeyId, secretAccessKey } } : {}),
    // The default checksums corrupt streamed puts on some S3-compatible servers.
    requestChecksumCalculation: "WHEN_REQUIRED",
    responseChecksumValidation: "WHEN_REQUIRED",
  });
  return {
    async put(key, bytes, contentType) {
      await client.send(new PutObjectCommand({ Bucket: bucket, Key: checked(key), Body: bytes, ContentType: contentType }));
    },
    async get(key) {
      try {
        const answer = await client.send(new GetObjectCommand({ Bucket: bucket, Key: checked(key) }));
        return (await answer.Body?.transformToByteArray()) ?? null;
      } catch (error) {
        if (error instanceof NoSuchKey) return null;
        throw error;
      }
    },
    async putFile(key, file, contentType) {
      const { size } = await stat(file);
      await client.send(new PutObjectCommand({ Bucket: bucket, Key: checked(key), Body: createReadStream(file), ContentLength: size, ContentType: contentType }));
    },
    async read(key) {
      try {
        const { Body } = await client.send(new GetObjectCommand({ Bucket: bucket, Key: checked(key) }));
        return Body instanceof Readable ? Body : null;
      } catch (error) {
        if (error instanceof NoSuchKey) return null;
        throw error;
      }
    },
    async remove(key) {
      await client.send(new DeleteObjectCommand({ Bucket: bucket, Key: checked(key) }));
    },
  };
}

function isNodeError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && "code" in error;
}
