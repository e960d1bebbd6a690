import { PhotoUploader } from "@/app/_device/photo-uploader";
import { MOST_BENCH_PHOTOS } from "@/lib/domain/claims/bench-steps";
import { FIRST_LANGUAGE } from "@/lib/domain/claims/languages";
import { textsOf } from "@/lib/messages/words";
import styles from "./inspection.module.css";
import { BENCH_PHOTO_PROBLEMS } from "./photo-problems";

interface Props {
  /** Where photos of this step are posted. */
  address: string;
  claimId: string;
  photos: readonly { id: string }[];
  /** How many the whole inspection has. */
  attached: number;
  problem: string | null;
}

/** What differs from the words for customers. */
const TEXTS: Readonly<Record<string, string>> = {
  ...textsOf(FIRST_LANGUAGE, "photos"),
  "photos.goOn": "Go on meanwhile. Only the end of the inspection waits for photos on their way.",
  "photos.full": BENCH_PHOTO_PROBLEMS["too-many-photos"][1],
  ...Object.fromEntries(Object.entries(BENCH_PHOTO_PROBLEMS).map(([problem, [, sentence]]) => [`photos.problem.${problem}`, sentence])),
};

/** Photos of one step, from the tablet's camera: each is kept on the tablet until we have all of it. */
export function BenchPhotos({ address, claimId, photos, attached, problem }: Props) {
  return (
    <section className={styles.photos} aria-label="Photos of this step">
      <PhotoUploader address={address} reference={address} problem={problem} attached={attached} most={MOST_BENCH_PHOTOS} texts={TEXTS} language={FIRST_LANGUAGE}>
        {photos.map(({ id }, index) => (
          <li key={id}>
            <a href={`/queue/${claimId}/photos/${id}`}>
              <img src={`/queue/${claimId}/photos/${id}?size=small`} alt={`${index + 1} of ${photos.length}, open it large`} width="96" height="72" loading="lazy" />
            </a>
          </li>
        ))}
      </PhotoUploader>
    </section>
  );
}
