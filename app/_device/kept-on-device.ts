import { createStore, del, entries, get, set, update } from "idb-keyval";
import { DRAFT_DAYS } from "@/lib/domain/claims/key-days";
import { noteThatSomethingWaits } from "./waits";

/** What a device keeps (IndexedDB) until we have it: photos on their way, and what was answered of a complaint not sent yet. */

const store = createStore("fit-or-fault", "kept");

export interface KeptPhoto {
  id: string;
  /** Of the complaint it was taken for, or the address of photos of staff; null while the complaint has not reached us. */
  reference: string | null;
  name: string;
  /** As it is sent. Before it has been made smaller, as it was taken. */
  blob: Blob;
  isReady: boolean;
  keptAt: number;
}

const photoName = (id: string) => `photo.${id}`;

export async function keepPhoto(photo: KeptPhoto): Promise<void> {
  noteThatSomethingWaits();
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
  await update<KeptComplaint>(
    COMPLAINT,
    (kept) => {
      const changed = { ...change(kept ?? begun), keptAt: Date.now() };
      if (changed.notSent.length > 0 || changed.isSent) noteThatSomethingWaits();
      return changed;
    },
    store,
  );
}

/**
 * Keeps what was typed on one screen, so that all of it is there when the signal is lost.
 *
 * @param reference of the draft with us; null while there is none
 * @param hasReachedUs false: it is sent later
 */
export function keepAnswer(screen: string, values: Readonly<Record<string, string>>, reference: string | null, hasReachedUs: boolean): Promise<void> {
  return changeComplaint((kept) => {
    // Another complaint was begun: what had reached us of the one before is not needed here any more.
    const isAnother = kept.notSent.length === 0 && !kept.isSent && (reference === null ? screen === "who" : kept.reference !== null && kept.reference !== reference);
    const before: KeptComplaint = isAnother ? { ...kept, filingKey: crypto.randomUUID(), reference: null, answers: {} } : kept;
    const others = before.notSent.filter((other) => other !== screen);
    return { ...before, reference: reference ?? before.reference, answers: { ...before.answers, [screen]: values }, notSent: hasReachedUs ? others : [...others, screen] };
  });
}

export async function forgetComplaint(): Promise<void> {
  await del(COMPLAINT, store);
  await noteIfNothingWaits();
}

/** A check has put it right and the draft with us is gone: so goes what is kept of it here. What waits to be sent is another complaint's. */
export async function forgetDraft(): Promise<void> {
  const kept = await keptComplaint();
  if (!kept || kept.notSent.length > 0 || kept.isSent) return;
  for (const { id, reference } of await keptPhotos()) if (reference === kept.reference) await forgetPhoto(id);
  await forgetComplaint();
}

/** Takes the note back once nothing is left that we have not. */
export async function noteIfNothingWaits(): Promise<void> {
  const complaint = await keptComplaint();
  const doesComplaintWait = complaint !== null && (complaint.notSent.length > 0 || complaint.isSent);
  if (!doesComplaintWait && (await keptPhotos()).length === 0) noteThatSomethingWaits(false);
}

const isTooOld = (keptAt: number) => Date.now() - keptAt > DRAFT_DAYS * 86_400_000;
