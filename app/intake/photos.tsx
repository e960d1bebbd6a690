import type { CustomerActor } from "@/lib/access/actors";
import { MOST_PHOTOS } from "@/lib/domain/intake/fields";
import { loadMyPhotos } from "@/lib/operations/load-photo";
import { removeDraftPhoto } from "./actions";
import css from "./intake.module.css";
import { photoProblem } from "./photo-upload";
import { PhotoUploader } from "./photo-uploader";

/** The photos of the draft: those kept, and a way to add and remove. A plain form posts them without script. */
export async function Photos({ customer, problem }: { customer: CustomerActor; problem: string | undefined }) {
  const photos = await loadMyPhotos(customer);
  return (
    <section aria-labelledby="photos-heading">
      <h2 id="photos-heading">Photos (optional)</h2>
      <PhotoUploader address="/intake/photos" problem={photoProblem(problem)} isFull={photos.length >= MOST_PHOTOS} />
      {photos.length > 0 ? (
        <ul className={css.photos}>
          {photos.map(({ id }, index) => (
            <li key={id}>
              {/* Our own thumbnails: there is nothing for an optimizer to do. */}
              <img src={`/intake/photos/${id}?size=small`} alt={`Attached ${index + 1} of ${photos.length}`} />
              <form action={removeDraftPhoto}>
                <input type="hidden" name="photo" value={id} />
                <button type="submit" className="link-button">
                  Remove<span className="visually-hidden"> photo {index + 1}</span>
                </button>
              </form>
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}
