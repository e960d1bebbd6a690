import type { Metadata } from "next";
import Link from "next/link";
import { notFound, redirect } from "next/navigation";
import { randomUUID } from "node:crypto";
import { z } from "zod";
import { Cautions } from "@/app/_components/cautions";
import { OilPath } from "@/app/_components/oil-path";
import { ScreenDrawing } from "@/app/_drawings/asked-drawing";
import { drawnFields } from "@/app/_drawings/drawn-fields";
import { currentIntakeCustomer } from "@/lib/access/customer";
import { currentWords } from "@/lib/access/language";
import { SCREENS } from "@/lib/domain/intake/answers";
import { sayIn } from "@/lib/messages/words";
import { loadScreen } from "@/lib/operations/load-screen";
import { saveScreen } from "../actions";
import { CautionReminder } from "../caution-reminder";
import css from "../intake.module.css";
import { Photos } from "../photos";
import { ScreenForm } from "../screen-form";
import { TapDrawing } from "../tap-drawing";

// The form sets the title itself: it begins with "Error:" when the form comes back.
export const metadata: Metadata = { title: { absolute: "" } };

export default async function ScreenPage({ params, searchParams }: { params: Promise<{ screen: string }>; searchParams: Promise<{ from?: string; problem?: string }> }) {
  const known = z.enum(SCREENS).safeParse((await params).screen);
  if (!known.success) notFound();
  const screen = known.data;
  const { from, problem } = await searchParams;
  const customer = await currentIntakeCustomer();
  if (customer?.isFiled) redirect("/intake");
  const words = await currentWords();
  const say = sayIn(words.language);
  const shown = await loadScreen(customer?.actor ?? null, screen, words.language);
  if (!shown.ok) redirect(`/intake/${shown.goTo ?? "review"}`);
  const { described, before, mostAfter } = shown;
  const stop = screen === "oil" ? null : shown.stop;
  const isDieselQuestion = screen === "oil" && shown.mayBeDiesel;

  return (
    <main id="main" className={`page column ${css.column} ${css.screen}`}>
      <ScreenForm
        key={screen}
        described={described}
        values={shown.values}
        drawn={drawnFields(described.fields, shown.units, words)}
        screen={screen}
        reference={shown.reference}
        action={saveScreen.bind(null, screen, randomUUID())}
        back={from === "review" ? "/intake/review" : before ? `/intake/${before}` : "/"}
        fromReview={from === "review"}
        progress={
          <>
            <span>{mostAfter === 0 ? words("intake.progress.last") : words("intake.progress.more", { count: mostAfter })}</span>
            {shown.hasAdvice ? <Link href="/intake/checks">{words("intake.checks.title")}</Link> : null}
            {shown.reference ? <Link href="/intake/later">{words("intake.later.title")}</Link> : null}
          </>
        }
      >
        {screen === "oil" ? (
          <TapDrawing>
            <OilPath id="oil-path" caption={words("intake.oil.caption")} say={say} />
          </TapDrawing>
        ) : null}
        {isDieselQuestion ? (
          <div className={`caution ${css.runaway} ${css.runawayOnAnswer}`} role="status">
            <strong>{words("cautions.S1.title")}</strong>
            <br />
            {words("cautions.S1.sentence")}
          </div>
        ) : null}
        <ScreenDrawing screen={screen} say={say} />
        <CautionReminder cautions={[...(stop && !shown.stopIsNew ? [stop] : []), ...shown.read]} />
        <Cautions codes={described.cautions} say={say} stop={shown.stopIsNew ? stop : null} />
        {screen === "pictures" && customer ? <Photos customer={customer.actor} problem={problem} /> : null}
      </ScreenForm>
    </main>
  );
}
