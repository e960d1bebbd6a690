import { IMPORT_KIND_NAMES, type ImportReason } from "@/lib/domain/imports/kinds";
import type { ImportKept } from "@/lib/operations/load-import";

/** @example rowsInWords(1) === "one row" */
export function rowsInWords(count: number): string {
  return count === 1 ? "one row" : `${count.toLocaleString("en")} rows`;
}

/** What came of a file, as the finding over its page and in the history. */
export function importInWords(file: Pick<ImportKept, "state" | "rows" | "added" | "changed" | "alreadyThere" | "faulty" | "reason">): string {
  switch (file.state) {
    case "uploaded":
      return "Not brought in yet";
    case "queued":
      return "Waits for its turn";
    case "running":
      return "Is being brought in";
    case "done": {
      const parts = [file.added > 0 ? `${file.added.toLocaleString("en")} added` : "", file.changed > 0 ? `${file.changed.toLocaleString("en")} changed` : "", file.alreadyThere > 0 ? `${file.alreadyThere.toLocaleString("en")} there already` : ""].filter(Boolean);
      return parts.join(", ");
    }
    case "refused":
      return file.reason ? `Nothing taken in: ${REASONS[file.reason]}` : `Nothing taken in: ${rowsInWords(file.faulty)} of ${file.rows.toLocaleString("en")} to correct`;
    case "failed":
      return `Nothing taken in: ${REASONS[file.reason ?? "trouble"]}`;
    case "withdrawn":
      return "Taken back";
  }
}

const REASONS: Readonly<Record<ImportReason, string>> = {
  "no-rows": "there is no row below the headings",
  "quotes-broken": "a quotation mark is opened and never closed",
  "row-too-long": "a row does not end, most likely for a quotation mark that nothing closes",
  "encoding-broken": "some signs are not in the encoding of the rest",
  "file-gone": "the file is no longer kept",
  interrupted: "the work was interrupted three times, the last time before it was done; send the file again",
  trouble: "something went wrong here; send the file again",
};

/** What a file holds, within a sentence. */
export function kindInWords(kind: ImportKept["kind"]): string {
  return IMPORT_KIND_NAMES[kind].toLowerCase();
}

/** @example sizeInWords(2_400_000) === "2.4 MB" */
export function sizeInWords(bytes: number): string {
  return bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
}

/** A time where the seller is. */
export function timeInWords(at: Date, timeZone: string): string {
  return new Intl.DateTimeFormat("en-GB", { timeZone, day: "numeric", month: "short", year: "numeric", hour: "2-digit", minute: "2-digit" }).format(at);
}
