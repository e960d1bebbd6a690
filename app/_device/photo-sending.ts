import { MOST_PHOTO_BYTES } from "@/lib/domain/intake/fields";
import { pieceLength } from "@/lib/domain/intake/photo-pieces";
import { forgetPhoto, type KeptPhoto, keepPhoto, keptPhotos, noteIfNothingWaits } from "./kept-on-device";
import { shrinkPhoto } from "./shrink-photo";

/**
 * Sends photos from the device piece by piece, one photo after another: a weak signal carries one better than four. Each
 * is kept on the device until we have it, so that neither a lost signal nor a closed tab loses it.
 */

export interface PhotoOnItsWay {
  id: string;
  /** Of the complaint it was taken for, or the address of photos of staff; null while the complaint has not reached us. */
  reference: string | null;
  name: string;
  /** One that waits has been tried in vain; one that has arrived is told of until the page shows it. */
  state: "getting-ready" | "next" | "sending" | "waiting" | "arrived" | "refused";
  /** 0..1 */
  progress: number;
  /** Why it was refused, as the server names it. */
  problem?: string;
}

const PIECE_TIMEOUT_MS = 60_000;
const SOONEST_RETRY_MS = 4_000;
const LATEST_RETRY_MS = 60_000;
/** What keeps a photo back for a while only. */
const PASSING = ["busy", "too-many-tries", "not-signed-in"];

let onTheirWay: readonly PhotoOnItsWay[] = [];
const listeners = new Set<() => void>();
/** Where the device keeps nothing, as in some private windows, this page alone does. */
const inMemory = new Map<string, KeptPhoto>();
/** Those that the device does keep: one that is gone from there has been sent or left out in another window. */
const onDevice = new Set<string>();

export const photosOnTheirWay = () => onTheirWay;

export function whenPhotosMove(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function tell(change: (before: readonly PhotoOnItsWay[]) => readonly PhotoOnItsWay[]): void {
  onTheirWay = change(onTheirWay);
  for (const listener of listeners) listener();
}

const note = (id: string, part: Partial<PhotoOnItsWay>) => tell((before) => before.map((photo) => (photo.id === id ? { ...photo, ...part } : photo)));

/** Takes photos on: they are kept on the device at once, then made smaller and sent. */
export async function takeOnPhotos(files: readonly File[], reference: string | null, room: number): Promise<void> {
  const photos = files.map((file, index) => {
    const problem = index >= room ? "too-many-photos" : file.size === 0 ? "empty" : file.size > MOST_PHOTO_BYTES ? "too-big" : undefined;
    const kept: KeptPhoto = { id: crypto.randomUUID(), reference, name: file.name, blob: file, isReady: false, keptAt: Date.now() + index };
    return { kept, problem };
  });
  tell((before) => [...before, ...photos.map(({ kept, problem }) => ({ ...asListed(kept), ...(problem ? { state: "refused" as const, problem } : {}) }))]);
  for (const { kept, problem } of photos) if (!problem) await keep(kept);
  await sendPhotos();
}

/** Goes on with what an earlier page has left on the device. */
export async function pickUpPhotos(): Promise<void> {
  const kept = await keptPhotos().catch(() => []);
  for (const photo of kept) {
    inMemory.set(photo.id, photo);
    onDevice.add(photo.id);
  }
  tell((before) => [...before, ...kept.filter(({ id }) => !before.some((one) => one.id === id)).map(asListed)]);
  await sendPhotos();
}

/** The complaint that photos were taken for has reached us under this reference: not begun before, or begun under another. */
export async function nameComplaintOfPhotos(before: string | null, reference: string): Promise<void> {
  await pickUpPhotos();
  const isMeant = (photo: { reference: string | null }) => photo.reference === null || photo.reference === before;
  for (const photo of inMemory.values()) if (isMeant(photo)) await keep({ ...photo, reference });
  tell((all) => all.map((photo) => (isMeant(photo) ? { ...photo, reference } : photo)));
  await sendPhotos();
}

/** The page shows those that have arrived. */
export function dropArrived(): void {
  tell((before) => before.filter(({ state }) => state !== "arrived"));
}

export async function leaveOutPhoto(id: string): Promise<void> {
  tell((before) => before.filter((photo) => photo.id !== id));
  await forget(id);
}

export async function sendPhotoAgain(id: string): Promise<void> {
  note(id, { state: "next" });
  await sendPhotos();
}

const asListed = ({ id, reference, name, isReady }: KeptPhoto): PhotoOnItsWay => ({ id, reference, name, state: isReady ? "next" : "getting-ready", progress: 0 });
const isToSend = ({ state, reference }: PhotoOnItsWay) => (state === "next" || state === "waiting") && reference !== null;

async function keep(photo: KeptPhoto): Promise<void> {
  inMemory.set(photo.id, photo);
  await keepPhoto(photo).then(
    () => onDevice.add(photo.id),
    () => {},
  );
}

async function forget(id: string): Promise<void> {
  inMemory.delete(id);
  await forgetPhoto(id).catch(() => {});
  await noteIfNothingWaits().catch(() => {});
}

let isSending = false;
let pause = SOONEST_RETRY_MS;
let retry: ReturnType<typeof setTimeout> | undefined;

/** Sends what waits, until all of it has arrived or the signal is gone; then it tries again by itself. */
export async function sendPhotos(): Promise<void> {
  // Again with the signal; the same listener counts once.
  addEventListener("online", sendPhotos);
  if (isSending) return;
  isSending = true;
  clearTimeout(retry);
  try {
    await getReady();
    for (const { id } of onTheirWay.filter(isToSend)) {
      const photo = inMemory.get(id);
      if (photo && (await alone(id, () => sendOne(photo))) === "lost") break;
      pause = SOONEST_RETRY_MS;
    }
  } finally {
    isSending = false;
    tell((all) => all.map((photo) => (photo.state === "next" ? { ...photo, state: "waiting" } : photo)));
  }
  if (onTheirWay.some(({ state }) => state === "getting-ready")) return sendPhotos();
  if (!onTheirWay.some(isToSend)) return;
  retry = setTimeout(sendPhotos, pause);
  pause = Math.min(LATEST_RETRY_MS, pause * 2);
}

async function getReady(): Promise<void> {
  for (const { id } of onTheirWay.filter(({ state }) => state === "getting-ready")) {
    const photo = inMemory.get(id);
    if (photo && !photo.isReady) await keep({ ...photo, blob: await shrinkPhoto(photo.blob), isReady: true });
    note(id, { state: "next" });
  }
}

/** Of several windows one sends a photo; the others look again later. */
async function alone<T>(id: string, work: () => Promise<T>): Promise<T | "lost"> {
  if (!("locks" in navigator)) return work();
  return navigator.locks.request(`fit-or-fault.photo.${id}`, { ifAvailable: true }, async (lock) => (lock ? work() : "lost"));
}

async function sendOne({ id, reference, blob }: KeptPhoto): Promise<"arrived" | "refused" | "lost"> {
  if (onDevice.has(id) && !(await keptPhotos()).some((photo) => photo.id === id)) return arrive(id);
  note(id, { state: "sending" });
  try {
    for (const address of addressesOf(id, reference ?? "")) {
      const answer = await sendPieces(address, blob, (progress) => note(id, { progress }));
      if (answer.isWhole) return arrive(id);
      if (answer.problem === "no-claim") continue;
      if (!answer.problem || PASSING.includes(answer.problem)) break;
      note(id, { state: "refused", problem: answer.problem });
      return "refused";
    }
  } catch {
    // No signal, or the server is being started anew.
  }
  note(id, { state: "waiting" });
  return "lost";
}

interface Answer {
  received: number;
  isWhole: boolean;
  problem?: string;
}

/** Asks how much has arrived, and sends the rest; gives up when several pieces in a row do not count. */
async function sendPieces(address: URL, blob: Blob, onProgress: (share: number) => void): Promise<Answer> {
  let answer = await ask(address);
  for (let stuck = 0; !answer.isWhole && !answer.problem && stuck < 4; ) {
    const begin = answer.received;
    onProgress(begin / blob.size);
    const to = new URL(address);
    to.searchParams.set("begin", String(begin));
    to.searchParams.set("bytes", String(blob.size));
    answer = await ask(to, { method: "PUT", body: blob.slice(begin, begin + pieceLength(blob.size, begin)) });
    stuck = answer.received > begin ? 0 : stuck + 1;
  }
  return answer;
}

async function ask(address: URL, piece: RequestInit = {}): Promise<Answer> {
  const answer = await fetch(address, { ...piece, headers: { accept: "application/json" }, signal: AbortSignal.timeout(PIECE_TIMEOUT_MS) });
  return { received: 0, isWhole: false, ...((await answer.json()) as Partial<Answer>) };
}

/** Where a photo goes: those of staff to their address; the key of a complaint belongs to the intake, to its own page, or to both. */
function addressesOf(id: string, reference: string): URL[] {
  if (reference.startsWith("/")) {
    const address = new URL(reference, location.origin);
    address.pathname += `/uploads/${id}`;
    return [address];
  }
  const addresses = [new URL(`/intake/photos/uploads/${id}?of=${reference}`, location.origin), new URL(`/claim/${reference}/photos/uploads/${id}`, location.origin)];
  return location.pathname.startsWith("/claim/") ? addresses.reverse() : addresses;
}

async function arrive(id: string): Promise<"arrived"> {
  note(id, { state: "arrived" });
  await forget(id);
  return "arrived";
}
