import type { Metadata } from "next";
import { ScreenDrawing } from "@/app/_drawings/asked-drawing";
import { drawnFields } from "@/app/_drawings/drawn-fields";
import { Cautions } from "@/app/_components/cautions";
import { OilPath } from "@/app/_components/oil-path";
import { currentWords } from "@/lib/access/language";
import { sayIn, textsOf } from "@/lib/messages/words";
import { loadOfflineIntake } from "@/lib/operations/load-offline-intake";
import css from "../intake.module.css";
import { PhotoFrames } from "../photo-frames";
import { TapDrawing } from "../tap-drawing";
import { OfflineIntake } from "./offline-intake";

export async function generateMetadata(): Promise<Metadata> {
  return { title: (await currentWords())("offline.title") };
}

/** The whole form in one page, for a device without a signal. It is the same for everybody: what was answered is on the device. */
export default async function OfflinePage() {
  const words = await currentWords();
  const say = sayIn(words.language);
  const intake = await loadOfflineIntake(words.language);
  const above = Object.fromEntries(
    intake.screens.map(({ screen, technician }) => [
      screen,
      <div key={screen}>
        {screen === "oil" ? (
          <>
            <TapDrawing>
              <OilPath id="oil-path" caption={words("intake.oil.caption")} say={say} />
            </TapDrawing>
            <div className={`caution ${css.runaway} ${css.runawayOnAnswer}`} role="status">
              <strong>{words("cautions.S1.title")}</strong>
              <br />
              {words("cautions.S1.sentence")}
            </div>
          </>
        ) : (
          <ScreenDrawing screen={screen} say={say} />
        )}
        <Cautions codes={technician.cautions} say={say} />
        {screen === "pictures" ? <PhotoFrames words={words} /> : null}
      </div>,
    ]),
  );
  const drawn = Object.fromEntries(intake.screens.map(({ screen, technician }) => [screen, drawnFields(technician.fields, "metric", words)]));
  return (
    <main id="main" className={`page column ${css.column} ${css.screen}`}>
      <OfflineIntake intake={intake} above={above} drawn={drawn} texts={textsOf(words.language, "offline")} photoTexts={textsOf(words.language, "photos")} language={words.language} />
    </main>
  );
}
