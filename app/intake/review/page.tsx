import type { Metadata } from "next";
import Link from "next/link";
import { redirect } from "next/navigation";
import { Cautions } from "@/app/_components/cautions";
import { TitleBlock } from "@/app/_components/title-block";
import { currentIntakeCustomer } from "@/lib/access/customer";
import { loadMyPhotos } from "@/lib/operations/load-photo";
import { loadReview } from "@/lib/operations/load-review";
import { file } from "../actions";
import css from "../intake.module.css";
import { SendForm } from "../send-form";

export const metadata: Metadata = { title: "Check and send" };

export default async function ReviewPage() {
  const customer = await currentIntakeCustomer();
  if (!customer || customer.isFiled) redirect("/intake");
  const review = await loadReview(customer.actor);
  if (!review.ok) redirect(review.reason === "not-yet" ? `/intake/${review.goTo}` : "/intake");
  const photos = await loadMyPhotos(customer.actor);
  return (
    <main id="main" className={`page column ${css.column}`}>
      <div className={css.progress}>
        <span>No more questions</span>
        <Link href="/intake/later">Go on later</Link>
      </div>
      <h1>Check what you tell us, then send it</h1>
      <p>
        <strong>It is not sent yet.</strong> Read it once more; every answer can still be changed.
      </p>
      <Cautions codes={[]} stop={review.stop} />
      {review.known.length > 0 ? (
        <>
          <h2>What your purchase tells us</h2>
          <TitleBlock
            facts={review.known.map(({ name, value, changeOn }) => ({
              name,
              value: (
                <>
                  {value}{" "}
                  <Link className="small" href={`/intake/${changeOn}?from=review`}>
                    Not right<span className="visually-hidden">: change the {name.toLowerCase()}</span>?
                  </Link>
                </>
              ),
            }))}
          />
        </>
      ) : null}
      {review.screens.map(({ screen, name, answers }) => (
        <dl key={screen} className={css.answers}>
          {answers.map(({ field, question, answer }, index) => (
            <div key={field}>
              <dt>{question}</dt>
              <dd>{answer ?? <span className="soft">not given</span>}</dd>
              {index === 0 ? (
                <dd className={css.change}>
                  <Link href={`/intake/${screen}?from=review`}>
                    Change<span className="visually-hidden">: {name.toLowerCase()}</span>
                  </Link>
                </dd>
              ) : null}
            </div>
          ))}
        </dl>
      ))}
      <dl className={css.answers}>
        <div>
          <dt>Photos</dt>
          <dd>{photos.length === 0 ? <span className="soft">none</span> : photos.length}</dd>
          <dd className={css.change}>
            <Link href="/intake/pictures?from=review">
              Change<span className="visually-hidden">: photos</span>
            </Link>
          </dd>
        </div>
      </dl>
      <SendForm action={file} title="Check and send" label="Send my complaint" back="/intake/contact" />
    </main>
  );
}
