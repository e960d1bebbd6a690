"use client";

import { useRouter } from "next/navigation";
import { type ReactNode, useEffect, useId, useRef, useState, useTransition } from "react";
import type { Language } from "@/lib/domain/claims/languages";
import { MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { sayFrom } from "@/lib/domain/say";
import type { PhotoOnItsWay } from "./photo-sending";
import css from "./photo-uploader.module.css";

interface Props {
  /** Where the form without script is posted. */
  address: string;
  /** Of the complaint the photos are for, or, of photos of staff, their address; null while the complaint has not reached us. */
  reference: string | null;
  /** What went wrong with the last form without script. */
  problem: string | null;
  /** How many photos we have already. */
  attached: number;
  /** How many we keep. */
  most?: number;
  /** For how many photos, three at most, room is kept from the start, so that nothing moves when they come. */
  room?: number;
  texts: Readonly<Record<string, string>>;
  language: Language;
  /** The photos we have, each an item of a list. */
  children?: ReactNode;
}

/** Names of the places that are kept free, so that one that is taken leaves the others where they are. */
const PLACES = ["first", "second", "third"];

/** With the page's first photo, or with one that an earlier page has left on the device. */
const sending = () => import("./photo-sending");

/**
 * Photos from the camera and from those on the phone, several at once; each has its progress and goes on by itself after a
 * lost signal. Until it runs, and where script is off, a plain form posts them.
 */
export function PhotoUploader({ address, reference, problem, attached, most = MOST_PHOTOS, room = 0, texts, language, children }: Props) {
  const say = sayFrom(texts, language);
  const router = useRouter();
  const camera = useRef<HTMLInputElement>(null);
  const gallery = useRef<HTMLInputElement>(null);
  const id = useId();
  const [isReady, setReady] = useState(false);
  const [noted, setPhotos] = useState<readonly PhotoOnItsWay[]>([]);
  const [isRefreshing, refresh] = useTransition();
  const hasRefreshed = useRef(false);
  // What has arrived gives its place to what the page shows anew.
  const photos = noted.filter(({ state }) => state !== "arrived" || isRefreshing);

  useEffect(() => {
    setReady(true);
    let isHere = true;
    let leave = () => {};
    void sending().then(({ photosOnTheirWay, pickUpPhotos, whenPhotosMove }) => {
      if (!isHere) return;
      let seen = 0;
      const look = () => {
        const now = photosOnTheirWay().filter((photo) => photo.reference === reference);
        const arrived = now.filter(({ state }) => state === "arrived").length;
        setPhotos(now);
        if (arrived > seen) refresh(() => router.refresh());
        seen = arrived;
      };
      leave = whenPhotosMove(look);
      look();
      void pickUpPhotos();
    });
    return () => {
      isHere = false;
      leave();
    };
  }, [reference, router]);

  useEffect(() => {
    if (!isRefreshing && hasRefreshed.current) void sending().then(({ dropArrived }) => dropArrived());
    hasRefreshed.current = isRefreshing;
  }, [isRefreshing]);

  const isFull = attached + photos.length >= most;
  function choose(input: HTMLInputElement) {
    const files = [...(input.files ?? [])];
    input.value = "";
    void sending().then(({ takeOnPhotos }) => takeOnPhotos(files, reference, most - attached - photos.length));
  }
  const types = { type: "file", name: "photo", accept: "image/jpeg,image/png,image/webp,image/heic,image/heif", hidden: isReady } as const;
  return (
    <>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      {isFull ? <p>{say("photos.full")}</p> : null}
      <form action={address} method="post" encType="multipart/form-data" hidden={isFull} className={`${css.upload} no-print`}>
        <input ref={gallery} id={`${id}photo`} aria-label={say("photos.choose")} {...types} multiple onChange={(event) => isReady && choose(event.currentTarget)} />
        {isReady ? (
          <>
            <input ref={camera} aria-label={say("photos.take")} {...types} capture="environment" onChange={(event) => choose(event.currentTarget)} />
            <button type="button" className={`button plain ${css.camera}`} onClick={() => camera.current?.click()}>
              {say("photos.take")}
            </button>
            <button type="button" className="button plain" onClick={() => gallery.current?.click()}>
              {say("photos.choose")}
            </button>
          </>
        ) : (
          <button type="submit" className="button plain">
            {say("photos.send")}
          </button>
        )}
        <noscript>
          <p className="small">{say("photos.noScript")}</p>
        </noscript>
      </form>
      <p className={`${css.goOn} small soft no-print`}>{say("photos.goOn")}</p>
      <ul className={css.photos} aria-live="polite">
        {children}
        {photos.map((photo) => (
          <li key={photo.id} className={photo.state === "refused" ? css.refused : undefined}>
            <OnItsWay photo={photo} most={most} say={say} />
          </li>
        ))}
        {PLACES.slice(attached + photos.length, room).map((place) => (
          <li key={place} className={css.free} aria-hidden="true" />
        ))}
      </ul>
    </>
  );
}

function OnItsWay({ photo: { id, name, state, progress, problem }, most, say }: { photo: PhotoOnItsWay; most: number; say: ReturnType<typeof sayFrom> }) {
  const leaveOut = (
    <button type="button" className="link-button" onClick={() => void sending().then(({ leaveOutPhoto }) => leaveOutPhoto(id))}>
      {say("photos.leaveOut")}
      <span className="visually-hidden">: {name}</span>
    </button>
  );
  const again = (
    <button type="button" className="link-button" onClick={() => void sending().then(({ sendPhotoAgain }) => sendPhotoAgain(id))}>
      {say("photos.again")}
      <span className="visually-hidden">: {name}</span>
    </button>
  );
  if (state === "refused") {
    return (
      <>
        <span className={css.name}>{name}</span>
        <span className="error small">{say(`photos.problem.${problem ?? "damaged"}`, { most })}</span>
        {problem === "too-many-photos" || problem === "no-claim" ? again : null}
        {leaveOut}
      </>
    );
  }
  return (
    <>
      <span className={css.onItsWay}>
        <span className={css.name}>{name}</span>
        <span>{say(`photos.state.${state}`)}</span>
        <progress value={state === "arrived" ? 1 : progress} max={1} aria-label={`${name}: ${say("photos.state.sending")}`} />
      </span>
      {state === "waiting" ? again : null}
      {state === "waiting" || state === "next" ? leaveOut : null}
    </>
  );
}
