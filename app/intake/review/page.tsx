import type { Metadata } from "next";
import Link from "next/link";
import { redirect } from "next/navigation";
import type { ReactNode } from "react";
import { Cautions } from "@/app/_components/cautions";
import { TitleBlock } from "@/app/_components/title-block";
import { currentIntakeCustomer } from "@/lib/access/customer";
import { currentWords } from "@/lib/access/language";
import { sayIn } from "@/lib/messages/words";
import { loadMyPhotos } from "@/lib/operations/load-photo";
import { loadReview } from "@/lib/operations/load-review";
import { file } from "../actions";
import css from "../intake.module.css";
import { SendForm } from "../send-form";

export async function generateMetadata(): Promise<Metadata> {
  const words = await currentWords();
  return { title: words("intake.review.title") };
}

const unseen = (words: ReactNode) => <span className="visually-hidden">{words}</span>;

export default async function ReviewPage() {
  const customer = await currentIntakeCustomer();
  if (!customer || customer.isFiled) redirect("/intake");
  const review = await loadReview(customer.actor);
  if (!review.ok) redirect(review.reason === "not-yet" ? `/intake/${review.goTo}` : "/intake");
  const photos = await loadMyPhotos(customer.actor);
  const words = await currentWords();
  return (
    <main id="main" className={`page column ${css.column}`}>
      <div className={css.progress}>
        <span>{words("intake.progress.none")}</span>
        <Link href="/intake/checks">{words("intake.checks.title")}</Link>
        <Link href="/intake/later">{words("intake.later.title")}</Link>
      </div>
      <h1>{words("intake.review.heading")}</h1>
      <p>{words.rich("intake.review.notSent", { b: (chunks) => <strong>{chunks}</strong> })}</p>
      <Cautions codes={[]} stop={review.stop} say={sayIn(words.language)} />
      {review.known.length > 0 ? (
        <>
          <h2>{words("intake.review.known")}</h2>
          <TitleBlock
            facts={review.known.map(({ name, value, changeOn }) => ({
              name,
              value: (
                <>
                  {value}{" "}
                  <Link className="small" href={`/intake/${changeOn}?from=review`}>
                    {words.rich("intake.review.notRight", { name, more: unseen })}
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
              <dd>{answer ?? <span className="soft">{words("intake.review.notGiven")}</span>}</dd>
              {index === 0 ? (
                <dd className={css.change}>
                  <Link href={`/intake/${screen}?from=review`}>
                    {words.rich("intake.review.change", { name, more: unseen })}
                  </Link>
                </dd>
              ) : null}
            </div>
          ))}
        </dl>
      ))}
      <dl className={css.answers}>
        <div>
          <dt>{words("intake.review.photos")}</dt>
          <dd>{photos.length === 0 ? <span className="soft">{words("intake.review.noPhotos")}</span> : photos.length}</dd>
          <dd className={css.change}>
            <Link href="/intake/pictures?from=review">
              {words.rich("intake.review.change", { name: words("intake.review.photos"), more: unseen })}
            </Link>
          </dd>
        </div>
      </dl>
      <SendForm reference={review.reference} action={file} title={words("intake.review.title")} label={words("intake.review.send")} back="/intake/contact" />
    </main>
  );
}
