import { PhotoUploader } from "@/app/_device/photo-uploader";
import type { CustomerActor } from "@/lib/access/actors";
import { currentWords } from "@/lib/access/language";
import { loadMyPhotos } from "@/lib/operations/load-photo";
import { textsOf } from "@/lib/messages/words";
import { removeDraftPhoto } from "./actions";
import { ASKED_PHOTOS, PhotoFrames } from "./photo-frames";
import { photoProblem } from "./photo-upload";

/** The photos of the draft: those kept, and a way to add and remove. A plain form posts them without script. */
export async function Photos({ customer, problem }: { customer: CustomerActor; problem: string | undefined }) {
  const [photos, words, inWords] = await Promise.all([loadMyPhotos(customer), currentWords(), photoProblem(problem)]);
  return (
    <section aria-labelledby="photos-heading">
      <h2 id="photos-heading">{words("photos.heading")}</h2>
      <PhotoFrames words={words} />
      <PhotoUploader address="/intake/photos" reference={customer.reference} problem={inWords} attached={photos.length} room={ASKED_PHOTOS} texts={textsOf(words.language, "photos")} language={words.language}>
        {photos.map(({ id }, index) => (
          <li key={id}>
            {/* Our own thumbnails: there is nothing for an optimizer to do. */}
            <img src={`/intake/photos/${id}?size=small`} width={400} height={300} alt={words("photos.attached", { number: index + 1, count: photos.length })} />
            <form action={removeDraftPhoto}>
              <input type="hidden" name="photo" value={id} />
              <button type="submit" className="link-button">
                {words.rich("photos.remove", { number: index + 1, more: (chunks) => <span className="visually-hidden">{chunks}</span> })}
              </button>
            </form>
          </li>
        ))}
      </PhotoUploader>
    </section>
  );
}
