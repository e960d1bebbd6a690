"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef, useState } from "react";
import styles from "./inspection.module.css";

const NO_CONNECTION = "Not sent: no connection";

interface Waiting {
  id: number;
  file: File;
  problem: string | null;
}

/** Photos of one step, from the tablet's camera. Each is sent as it is taken and waits for another try when the signal is lost. */
export function BenchPhotos({ address, claimId, photos, problem }: { address: string; claimId: string; photos: readonly { id: string }[]; problem: string | null }) {
  const router = useRouter();
  const input = useRef<HTMLInputElement>(null);
  const counted = useRef(0);
  const [isReady, setReady] = useState(false);
  const [waiting, setWaiting] = useState<readonly Waiting[]>([]);
  useEffect(() => setReady(true), []);

  async function send(one: Waiting) {
    const body = new FormData();
    body.append("photo", one.file);
    const failure = await fetch(address, { method: "POST", headers: { accept: "application/json" }, body }).then(
      async (answer) => (answer.ok ? null : String(((await answer.json().catch(() => ({}))) as { message?: string }).message ?? "Not kept. Try again")),
      () => NO_CONNECTION,
    );
    setWaiting((before) => before.flatMap((other) => (other.id !== one.id ? [other] : failure ? [{ ...other, problem: failure }] : [])));
    if (!failure) router.refresh();
  }

  function choose(files: FileList | null) {
    const added = [...(files ?? [])].map((file): Waiting => ({ id: counted.current++, file, problem: null }));
    setWaiting((before) => [...before, ...added]);
    for (const one of added) void send(one);
    if (input.current) input.current.value = "";
  }

  return (
    <section className={styles.photos} aria-label="Photos of this step">
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      <form action={address} method="post" encType="multipart/form-data">
        <input ref={input} type="file" name="photo" aria-label="Photo" accept="image/jpeg,image/png,image/webp,image/heic,image/heif" capture="environment" multiple hidden={isReady} onChange={(event) => isReady && choose(event.target.files)} />
        <button type={isReady ? "button" : "submit"} className="button plain" onClick={isReady ? () => input.current?.click() : undefined}>
          {isReady ? "Take a photo" : "Send the photo"}
        </button>
      </form>
      <ul>
        {photos.map(({ id }, index) => (
          <li key={id}>
            <a href={`/queue/${claimId}/photos/${id}`}>
              <img src={`/queue/${claimId}/photos/${id}?size=small`} alt={`${index + 1} of ${photos.length}, open it large`} width="96" height="72" loading="lazy" />
            </a>
          </li>
        ))}
      </ul>
      <ul aria-live="polite">
        {waiting.map((one) => (
          <li key={one.id} className="small">
            {one.file.name}: {one.problem ?? "on its way"}
            {one.problem ? (
              <button
                type="button"
                className="link-button"
                onClick={() => {
                  setWaiting((before) => before.map((other) => (other.id === one.id ? { ...other, problem: null } : other)));
                  void send(one);
                }}
              >
                Send again
              </button>
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  );
}
