import { OIL_PATH_PARTS, type OilPathPart } from "@/lib/domain/diagnosis/oil-path";
import type { StaffClaim } from "@/lib/operations/load-claim";
import { OBSERVER_WORDS } from "../words";
import css from "./photo-strip.module.css";

/** The photos of a claim in a row; each opens large, with its marks. */
export function PhotoStrip({ claim: { id: claimId, photos } }: { claim: Pick<StaffClaim, "id" | "photos"> }) {
  if (photos.length === 0) return null;
  return (
    <ul className={css.strip} id="photos" aria-label={photos.length === 1 ? "One photo" : `${photos.length} photos`}>
      {photos.map(({ id, subject, takenBy, from, marks }, index) => (
        <li key={id}>
          <a href={`/queue/${claimId}/look/${id}`}>
            <img src={`/queue/${claimId}/photos/${id}?size=small`} alt={`${index + 1} of ${photos.length}: ${subjectInWords(subject)}, by ${OBSERVER_WORDS[takenBy]}. Open it large`} loading="lazy" />
            <span className="small letter" aria-hidden="true">
              {index + 1}
            </span>
          </a>
          {from ? <span className="small soft">from {from}</span> : null}
          {marks.length > 0 ? <span className="small">{marks.map(({ number, word }) => `${number} ${word}`).join("; ")}</span> : null}
        </li>
      ))}
    </ul>
  );
}

/** What a photo shows, as far as anybody has said. */
export function subjectInWords(subject: string): string {
  if (subject in OIL_PATH_PARTS) return OIL_PATH_PARTS[subject as OilPathPart].name.toLowerCase();
  return subject === "unit" ? "the unit" : "what it shows is not said";
}
