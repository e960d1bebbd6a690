import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findEdition, loadEdition } from "@/lib/data/editions";
import { proposeEdition, type ProposeEditionResult } from "./propose-edition";
import { refuse, type Refusal } from "./refusal";

/** An edition as a file, to be kept, compared or changed elsewhere. */
export async function exportEdition(actor: StaffActor, number: number): Promise<{ ok: true; json: string } | { ok: false; reason: "not-found" } | Refusal> {
  const refused = await refuse(actor, "see the knowledge");
  if (refused) return refused;
  if (!(await findEdition(number))) return { ok: false, reason: "not-found" };
  return { ok: true, json: `${JSON.stringify(await loadEdition(number), null, 2)}\n` };
}

/** Several times the shipped edition, in bytes, and less than the framework takes in with a form. */
const LARGEST_EDITION = 1_000_000;

export type ProposeFileResult = ProposeEditionResult | { ok: false; reason: "too-big" | "not-json" };

/** Proposes the edition in a file of JSON; its number is given here, whatever the file says. */
export async function proposeEditionFile(actor: StaffActor, file: ReadableStream<Uint8Array> | null, { basis, why }: { basis: number; why: string }): Promise<ProposeFileResult | Refusal> {
  const refused = await refuse(actor, "change the knowledge");
  if (refused) return refused;
  const text = await textOf(file);
  if (text === null) return { ok: false, reason: "too-big" };
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    return { ok: false, reason: "not-json" };
  }
  return proposeEdition(actor, { document, basis, origin: "by_hand", why });
}

/** The text of a stream, or null once it is too long: no more than that is ever held. */
async function textOf(file: ReadableStream<Uint8Array> | null): Promise<string | null> {
  const pieces: Uint8Array[] = [];
  let bytes = 0;
  if (file) {
    for await (const piece of file as unknown as AsyncIterable<Uint8Array>) {
      bytes += piece.byteLength;
      if (bytes > LARGEST_EDITION) return null;
      pieces.push(piece);
    }
  }
  return Buffer.concat(pieces).toString("utf8");
}
