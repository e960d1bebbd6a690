import "server-only";
import { randomUUID } from "node:crypto";
import { createReadStream } from "node:fs";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { insertImport } from "@/lib/data/imports";
import { MOST_IMPORT_BYTES } from "@/lib/domain/imports/reading";
import { TextInspector } from "@/lib/files/csv-encoding";
import { startAsText, startOf } from "@/lib/files/csv-reading";
import { type PostedForm, type PostedRefusal, withPostedFile } from "@/lib/files/posted-file";
import { putObjectFile, removeObject } from "@/lib/files/store";
import { importKindSchema } from "@/lib/inputs/import";
import { plain } from "@/lib/inputs/text";
import { auditActor, type Refusal, refuse } from "./refusal";
import { guessReading } from "./read-import-start";

export type UploadImportResult = { ok: true; importId: string } | Refusal | { ok: false; reason: PostedRefusal | "kind-unknown" | "empty" | "not-text" };

/** The form around a file takes a little too. */
const AROUND_BYTES = 10_000;
const START_BYTES = 262_144;
const LONGEST_NAME = 120;

/**
 * Keeps a file of figures that was posted, as it is, and guesses how it is to be read. Nothing of it is taken in before
 * somebody has seen its first rows.
 *
 * @param form with the field `kind`, then the file
 */
export async function uploadImport(actor: StaffActor, form: PostedForm): Promise<UploadImportResult> {
  const refused = await refuse(actor, "bring in figures");
  if (refused) return refused;
  const inspector = new TextInspector();
  const uploaded = await withPostedFile(form, MOST_IMPORT_BYTES + AROUND_BYTES, (chunk) => inspector.take(chunk), async ({ fields, name, path }): Promise<UploadImportResult> => {
    const kind = importKindSchema.safeParse(fields.kind);
    if (!kind.success) return { ok: false, reason: "kind-unknown" };
    const text = await inspector.end();
    if (!text.ok) return text;
    const { encoding, bytes, sha256 } = text;
    const { start, isWhole } = await startOf(createReadStream(path), START_BYTES);
    const reading = guessReading(kind.data, startAsText(start, encoding, isWhole), encoding);
    const id = randomUUID();
    const storageKey = `imports/${id}`;
    await putObjectFile(storageKey, path, "text/csv");
    try {
      await inTransaction(async (db) => {
        await insertImport(db, { id, kind: kind.data, fileName: plain(name).slice(0, LONGEST_NAME) || "without a name", storageKey, bytes, sha256, reading, uploadedById: actor.personId });
        await appendAudit(db, { actor: auditActor(actor), action: "upload_figures", detail: { importId: id, kind: kind.data, bytes } });
      });
    } catch (error) {
      await removeObject(storageKey);
      throw error;
    }
    return { ok: true, importId: id };
  });
  return typeof uploaded === "string" ? { ok: false, reason: uploaded } : uploaded;
}
