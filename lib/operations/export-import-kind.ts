import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { type CatalogueKind, listCatalogue } from "@/lib/data/imports-out";
import { IMPORT_FIELDS } from "@/lib/domain/imports/fields";
import { type FileTable, fileTable } from "@/lib/files/table";
import { type Refusal, refuse } from "./refusal";

/** A part of the catalogue as a table that can be brought in again: as it is, it adds and changes nothing. */
export async function exportCatalogue(actor: StaffActor, kind: CatalogueKind): Promise<{ ok: true; table: FileTable } | Refusal> {
  const refused = await refuse(actor, "bring in figures");
  if (refused) return refused;
  const columns = Object.fromEntries(IMPORT_FIELDS[kind].map(({ key, name }) => [key, name]));
  return { ok: true, table: fileTable(columns, await listCatalogue(kind)) };
}
