"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef, useState } from "react";
import { MOST_PHOTO_BYTES } from "@/lib/domain/intake/fields";
import css from "./intake.module.css";

interface Upload {
  id: number;
  file: File;
  /** 0..1, or why it did not arrive. */
  progress: number;
  problem?: string;
}

const NO_CONNECTION = "It did not arrive: there is no connection. Try again";

/**
 * Sends photos one by one as they are chosen, each with its progress, and again when the signal was lost. Until it runs,
 * and where script is off, the form posts them all at once.
 */
export function PhotoUploader({ address, problem, isFull }: { address: string; problem: string | null; isFull: boolean }) {
  const router = useRouter();
  const input = useRef<HTMLInputElement>(null);
  const [isReady, setReady] = useState(false);
  const [uploads, setUploads] = useState<readonly Upload[]>([]);
  const queue = useRef<Promise<void>>(Promise.resolve());
  const counted = useRef(0);
  useEffect(() => setReady(true), []);

  function change(id: number, part: Partial<Upload> | null) {
    setUploads((before) => before.flatMap((upload) => (upload.id !== id ? [upload] : part ? [{ ...upload, ...part }] : [])));
  }

  function send(upload: Upload) {
    // One after another: a weak signal carries one photo better than four.
    queue.current = queue.current.then(async () => {
      const failure = await post(address, upload.file, (progress) => change(upload.id, { progress }));
      if (failure) change(upload.id, { problem: failure });
      else {
        change(upload.id, null);
        router.refresh();
      }
    });
  }

  function choose(files: FileList | null) {
    for (const file of files ?? []) {
      const upload: Upload = { id: counted.current++, file, progress: 0 };
      const tooBig = file.size > MOST_PHOTO_BYTES;
      setUploads((before) => [...before, tooBig ? { ...upload, problem: "The photo is larger than 25 MB. Send a smaller one" } : upload]);
      if (!tooBig) send(upload);
    }
    if (input.current) input.current.value = "";
  }

  return (
    <>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      {isFull ? <p>No more photos fit. Remove one to add another.</p> : null}
      <form action={address} method="post" encType="multipart/form-data" hidden={isFull} className={css.upload}>
        <input
          ref={input}
          type="file"
          name="photo"
          id="photo"
          aria-label="Photos"
          accept="image/jpeg,image/png,image/webp,image/heic,image/heif"
          multiple
          hidden={isReady}
          onChange={(event) => isReady && choose(event.target.files)}
        />
        {isReady ? (
          <button type="button" className="button plain" onClick={() => input.current?.click()}>
            Add photos
          </button>
        ) : (
          <button type="submit" className="button plain">
            Send the photos
          </button>
        )}
        <noscript>
          <p className="small">Send them before you write: the page then loads anew, without what is typed and not sent yet.</p>
        </noscript>
      </form>
      <ul className={css.uploads} aria-live="polite">
        {uploads.map((upload) => (
          <li key={upload.id}>
            <span className="small">{upload.file.name}</span>
            {upload.problem ? (
              <>
                <span className="error small">{upload.problem}</span>
                {upload.problem === NO_CONNECTION ? (
                  <button
                    type="button"
                    className="link-button"
                    onClick={() => {
                      setUploads((before) => before.map((other) => (other.id === upload.id ? { id: other.id, file: other.file, progress: 0 } : other)));
                      send(upload);
                    }}
                  >
                    Try again
                  </button>
                ) : null}
                <button type="button" className="link-button" onClick={() => change(upload.id, null)}>
                  Leave out
                </button>
              </>
            ) : (
              <progress value={upload.progress} max={1} aria-label={`Sending ${upload.file.name}`} />
            )}
          </li>
        ))}
      </ul>
    </>
  );
}

/** Posts one photo; null when it arrived, else why not. XMLHttpRequest, since fetch tells nothing of what was sent. */
function post(address: string, file: File, onProgress: (share: number) => void): Promise<string | null> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest();
    request.open("POST", address);
    request.setRequestHeader("accept", "application/json");
    request.responseType = "json";
    request.timeout = 180_000;
    request.upload.onprogress = ({ loaded, total }) => onProgress(total > 0 ? loaded / total : 0);
    request.onload = () => resolve(request.status === 201 ? null : String(request.response?.message ?? "It did not arrive. Try again later"));
    request.onerror = () => resolve(NO_CONNECTION);
    request.ontimeout = () => resolve(NO_CONNECTION);
    const form = new FormData();
    form.append("photo", file);
    request.send(form);
  });
}
