import { randomUUID } from "node:crypto";
import { mkdir, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { expect, test } from "vitest";
import { connectionPool, database, inTransaction } from "@/lib/data/client";
import { discardObjects } from "@/lib/data/discarded-objects";
import { insertUpload, pieceKey } from "@/lib/data/photo-uploads";
import { purgeExpired } from "@/lib/data/purge";
import { PIECE_BYTES } from "@/lib/domain/intake/photo-pieces";
import { env } from "@/lib/env";
import { getObject, putObject } from "@/lib/files/store";
import { removeDiscarded } from "../builders/discarded-objects";
import { aFiledClaim } from "../builders/intake";

const isThere = async (key: string) => (await getObject(key)) !== null;

async function anObject(): Promise<string> {
  const key = `claims/${randomUUID()}`;
  await putObject(key, new Uint8Array(3), "image/jpeg");
  return key;
}

test("objects go once the transaction that discards them is kept, and stay where it is rolled back", async () => {
  const [kept, gone] = [await anObject(), await anObject()];
  await inTransaction(async (db) => {
    await discardObjects(db, [kept]);
    throw new Error("rolled back");
  }).catch(() => {});
  await inTransaction((db) => discardObjects(db, [gone]));
  expect(await isThere(gone)).toBe(true);
  await removeDiscarded();
  expect([await isThere(kept), await isThere(gone)]).toEqual([true, false]);
});

test("objects that the store did not let go are removed with the next try", async () => {
  const [first, stuck] = [await anObject(), await anObject()];
  // A folder where the object should be: removing it fails.
  const place = path.join(env.FILES_FOLDER, stuck);
  await rm(place);
  await mkdir(place);
  await inTransaction((db) => discardObjects(db, [first, stuck]));
  await removeDiscarded();
  await rm(place, { recursive: true });
  await writeFile(place, "let go");
  await connectionPool().query("UPDATE graphile_worker._private_jobs SET run_at = now()");
  await removeDiscarded();
  expect([await isThere(first), await isThere(stuck)]).toEqual([false, false]);
});

test("the nightly purge leaves no piece of a photo, whether it was noted, never noted, or of a photo that is whole", async () => {
  const { claimId } = await aFiledClaim();
  const [begun, whole] = [randomUUID(), randomUUID()];
  for (const id of [begun, whole]) await insertUpload({ id, claimId, bytes: 2 * PIECE_BYTES });
  await database().photoUpload.update({ where: { id: whole }, data: { received: 2 * PIECE_BYTES, isDone: true } });
  const pieces = [begun, whole].map((id) => pieceKey({ claimId, id }, 0));
  for (const piece of pieces) await putObject(piece, new Uint8Array(PIECE_BYTES), "application/octet-stream");
  await purgeExpired(new Date(Date.now() + 4 * 86_400_000));
  await removeDiscarded();
  expect(await Promise.all(pieces.map(isThere))).toEqual([false, false]);
});
