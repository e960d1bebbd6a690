import type { ChangedRows } from "./kinds";
import type { ColumnOfField } from "./match-columns";
import type { DateOrder } from "./read-value";

export const ENCODINGS = ["utf-8", "utf-16le", "utf-16be", "windows-1252"] as const;
export type Encoding = (typeof ENCODINGS)[number];

/** What parts the columns of a line. */
export const DELIMITERS = [",", ";", "\t"] as const;
export type Delimiter = (typeof DELIMITERS)[number];

/** How a file is read, as told from the file and corrected by whoever brings it in. */
export interface ImportReading {
  encoding: Encoding;
  delimiter: Delimiter;
  dateOrder: DateOrder;
  columns: ColumnOfField;
  changed: ChangedRows;
}

/** What a file may weigh: about a million shipments. */
export const MOST_IMPORT_BYTES = 100 * 1024 * 1024;

/** How long the file itself and what was wrong with it are kept, since shipments name customers. */
export const IMPORT_FILE_DAYS = 30;
