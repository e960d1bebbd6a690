import type { StaffActor } from "@/lib/access/actors";
import type { ImportKind } from "@/lib/domain/imports/kinds";
import type { ChangedRows } from "@/lib/domain/imports/kinds";
import type { PostedForm } from "@/lib/files/posted-file";
import { carryOutImports } from "@/lib/operations/carry-out-imports";
import { loadImport } from "@/lib/operations/load-import";
import { startImport } from "@/lib/operations/start-import";
import { uploadImport } from "@/lib/operations/upload-import";

const BOUNDARY = "----seven-and-seventy";

/** A form as a browser posts it: the kind, then the file; in pieces as a network would cut it. */
export function aPostedFile(kind: string, content: string | Buffer, { name = "figures.csv", pieces = 65_536 }: { name?: string; pieces?: number } = {}): PostedForm {
  const head = `--${BOUNDARY}\r\ncontent-disposition: form-data; name="kind"\r\n\r\n${kind}\r\n--${BOUNDARY}\r\nContent-Disposition: form-data; name="file"; filename="${name}"\r\nContent-Type: text/csv\r\n\r\n`;
  const form = Buffer.concat([Buffer.from(head), Buffer.from(content), Buffer.from(`\r\n--${BOUNDARY}--\r\n`)]);
  async function* body() {
    for (let at = 0; at < form.length; at += pieces) yield form.subarray(at, at + pieces);
  }
  return { contentType: `multipart/form-data; boundary=${BOUNDARY}`, body: body() };
}

/** Uploads a file and hands it to the worker as it was guessed to be read. */
export async function queued(actor: StaffActor, kind: ImportKind, content: string | Buffer, changed: ChangedRows = "refuse"): Promise<string> {
  const uploaded = await uploadImport(actor, aPostedFile(kind, content));
  if (!uploaded.ok) throw new Error(`the file was refused: ${uploaded.reason}`);
  const loaded = await loadImport(actor, uploaded.importId);
  if (!loaded.ok) throw new Error(loaded.reason);
  const started = await startImport(actor, uploaded.importId, { ...loaded.file.reading, columns: { ...loaded.file.reading.columns }, changed });
  if (!started.ok) throw new Error(`the file was not started: ${JSON.stringify(started)}`);
  return uploaded.importId;
}

/** Brings in a file to its end, and says what came of it. */
export async function broughtIn(actor: StaffActor, kind: ImportKind, content: string | Buffer, changed: ChangedRows = "refuse") {
  const importId = await queued(actor, kind, content, changed);
  await carryOutImports();
  const loaded = await loadImport(actor, importId);
  if (!loaded.ok) throw new Error(loaded.reason);
  const { state, rows, added, changed: taken, alreadyThere, faulty, reason } = loaded.file;
  return { importId, state, rows, added, changed: taken, alreadyThere, faulty, reason, problems: loaded.problems };
}
