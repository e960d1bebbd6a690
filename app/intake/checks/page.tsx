import type { Metadata } from "next";
import Link from "next/link";
import { redirect } from "next/navigation";
import { AdvisedChecks } from "@/app/_advice/advised-checks";
import { Cautions } from "@/app/_components/cautions";
import { currentIntakeCustomer } from "@/lib/access/customer";
import { currentWords } from "@/lib/access/language";
import { sayIn } from "@/lib/messages/words";
import { loadDraftAdvice } from "@/lib/operations/load-draft-advice";
import { clearDraftHere, tellDraftCheckHere } from "../actions";
import css from "../intake.module.css";

export async function generateMetadata(): Promise<Metadata> {
  return { title: (await currentWords())("intake.checks.title") };
}

/** What can be checked now, before anything is filed. */
export default async function ChecksPage() {
  const customer = await currentIntakeCustomer();
  const advice = customer && !customer.isFiled ? await loadDraftAdvice(customer.actor) : null;
  if (!customer || !advice) redirect("/intake");
  const words = await currentWords();
  const goOn = `/intake/${advice.next ?? "review"}`;
  return (
    <main id="main" className={`page column ${css.column}`}>
      <div className={css.progress}>
        <Link href={goOn}>{words("intake.checks.goOn")}</Link>
      </div>
      <h1>{words("intake.checks.title")}</h1>
      <Cautions codes={[]} stop={advice.stop} say={sayIn(words.language)} />
      <p>{words("intake.checks.text")}</p>
      {advice.told.length > 0 ? (
        <dl className={css.answers}>
          {advice.told.map(({ code, question, answer }) => (
            <div key={code}>
              <dt>{question}</dt>
              <dd>{answer}</dd>
            </div>
          ))}
        </dl>
      ) : null}
      {advice.checks.length > 0 ? (
        <AdvisedChecks
          heading="h2"
          checks={advice.checks}
          units={customer.actor.units}
          words={words}
          reference={advice.reference}
          tell={(finding) => tellDraftCheckHere.bind(null, finding)}
          clear={(finding) => clearDraftHere.bind(null, finding)}
        />
      ) : (
        <p className="note">{words("intake.checks.none")}</p>
      )}
      <p className="small soft">{words("cautions.makersData")}</p>
      <p>
        <Link className="button" href={goOn}>
          {words("intake.checks.goOn")}
        </Link>
      </p>
    </main>
  );
}
