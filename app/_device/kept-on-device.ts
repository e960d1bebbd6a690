import { createStore, del, entries, get, set, update } from "idb-keyval";

/** What a device keeps (IndexedDB) until we have it: photos on their way, and what was answered of a complaint not sent yet. */

const store = createStore("fit-or-fault", "kept");

/** As long as a draft is kept with us. */
const KEPT_DAYS = 14;
/** Set while anything is kept, so that a page without it loads none of this. */
const SOMETHING_WAITS = "fit-or-fault.waits";

export interface KeptPhoto {
  id: string;
  /** Of the complaint it was taken for; null while that has not reached us. */
  reference: string | null;
  name: string;
  /** As it is sent. Before it has been made smaller, as it was taken. */
  blob: Blob;
  isReady: boolean;
  keptAt: number;
}

const photoName = (id: string) => `photo.${id}`;

export async function keepPhoto(photo: KeptPhoto): Promise<void> {
  localStorage.setItem(SOMETHING_WAITS, "yes");
  await set(photoName(photo.id), photo, store);
}

export async function forgetPhoto(id: string): Promise<void> {
  await del(photoName(id), store);
}

/** The photos that have not arrived yet, oldest first. What is older than a draft may be is forgotten. */
export async function keptPhotos(): Promise<KeptPhoto[]> {
  const photos = (await entries<string, KeptPhoto>(store)).flatMap(([name, photo]) => (name.startsWith("photo.") ? [photo] : []));
  const tooOld = photos.filter(({ keptAt }) => isTooOld(keptAt));
  await Promise.all(tooOld.map(({ id }) => forgetPhoto(id)));
  return photos.filter((photo) => !tooOld.includes(photo)).sort((a, b) => a.keptAt - b.keptAt);
}

export interface KeptComplaint {
  /** Made on the device: who sends a complaint twice under one key files it once. */
  filingKey: string;
  /** Of the draft with us; null when it was begun without a signal. */
  reference: string | null;
  /** What was typed, screen by screen. */
  answers: Readonly<Record<string, Readonly<Record<string, string>>>>;
  /** Screens that were answered without a signal, and so have not reached us. */
  notSent: readonly string[];
  /** The person has sent it: it goes as soon as there is a signal. */
  isSent: boolean;
  keptAt: number;
}

const COMPLAINT = "complaint";

export async function keptComplaint(): Promise<KeptComplaint | null> {
  const kept = await get<KeptComplaint>(COMPLAINT, store);
  if (!kept || !isTooOld(kept.keptAt)) return kept ?? null;
  await forgetComplaint();
  return null;
}

/** Changes what is kept of the complaint, whatever other windows do meanwhile. */
export async function changeComplaint(change: (kept: KeptComplaint) => KeptComplaint): Promise<void> {
  const begun: KeptComplaint = { filingKey: crypto.randomUUID(), reference: null, answers: {}, notSent: [], isSent: false, keptAt: Date.now() };
  await update<KeptComplaint>(COMPLAINT, (kept) => ({ ...change(kept ?? begun), keptAt: Date.now() }), store);
}

export async function forgetComplaint(): Promise<void> {
  await del(COMPLAINT, store);
}

/** Whether this device may have something that we have not. */
export function somethingWaits(): boolean {
  try {
    return localStorage.getItem(SOMETHING_WAITS) !== null;
  } catch {
    return false;
  }
}

export function noteThatSomethingWaits(): void {
  localStorage.setItem(SOMETHING_WAITS, "yes");
}

/** Takes the note back once nothing is kept. */
export async function noteIfNothingWaits(): Promise<void> {
  if ((await keptPhotos()).length === 0 && (await keptComplaint()) === null) localStorage.removeItem(SOMETHING_WAITS);
}

const isTooOld = (keptAt: number) => Date.now() - keptAt > KEPT_DAYS * 86_400_000;
