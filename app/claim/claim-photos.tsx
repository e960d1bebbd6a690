import { PhotoUploader } from "@/app/_device/photo-uploader";
import { PhotoFrames } from "@/app/intake/photo-frames";
import { photoProblem } from "@/app/intake/photo-upload";
import { currentWords } from "@/lib/access/language";
import { textsOf } from "@/lib/messages/words";
import css from "./claim.module.css";

/** The photos of a claim on its customer's page, and a way to add some; those still on their way go on from here. */
export async function ClaimPhotos({ reference, photos, problem }: { reference: string; photos: readonly { id: string }[]; problem: string | undefined }) {
  const [words, inWords] = await Promise.all([currentWords(), photoProblem(problem)]);
  const address = `/claim/${reference}/photos`;
  return (
    <section className="sheet">
      <h2>{words("photos.heading")}</h2>
      <div className="no-print">
        <PhotoFrames words={words} />
      </div>
      <PhotoUploader address={address} reference={reference} problem={inWords} attached={photos.length} texts={textsOf(words.language, "photos")} language={words.language}>
        {photos.map(({ id }, index) => (
          <li key={id}>
            <a href={`${address}/${id}`}>
              <img src={`${address}/${id}?size=small`} alt={words("photos.openLarge", { number: index + 1, count: photos.length })} />
            </a>
          </li>
        ))}
      </PhotoUploader>
    </section>
  );
}
