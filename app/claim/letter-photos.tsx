import type { Words } from "@/lib/messages/words";
import css from "./claim.module.css";

/** The photos that go with the letter, each to open large. */
export function LetterPhotos({ reference, photos, words }: { reference: string; photos: readonly string[]; words: Words }) {
  if (photos.length === 0) return null;
  return (
    <ul className={css.photos}>
      {photos.map((id, place) => (
        <li key={id} className={css.photo}>
          <a href={`/claim/${reference}/photos/${id}`}>
            <img src={`/claim/${reference}/photos/${id}?size=small`} alt={words("letter.photo", { number: place + 1 })} />
          </a>
        </li>
      ))}
    </ul>
  );
}
