import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { Cautions } from "@/app/_components/cautions";
import { percent } from "@/app/_components/scale";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { drawingsOf, ScreenDrawing } from "@/app/_drawings/asked-drawing";
import { cameOfPairInWords, dayIn, measuredOfPairInWords, otherSerialInWords, pairInWords } from "@/app/returns/return-words";
import { requireStaff } from "@/lib/access/staff";
import { BENCH_STEP_WORDS, BENCH_STEPS, type BenchStep } from "@/lib/domain/claims/bench-steps";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { toStaff } from "@/lib/messages/words";
import { type InspectionSheet, loadInspection, type StepOnSheet } from "@/lib/operations/load-inspection";
import { openHere, saveStepHere, takeOverHere } from "./actions";
import { BenchPhotos } from "./bench-photos";
import { moveInWords } from "./bench-words";
import { stepCopyKey } from "./copy-key";
import { ForgetTyped } from "./forget-typed";
import styles from "./inspection.module.css";
import { OUTLET_DRAWINGS } from "./outlet-drawings";
import { benchPhotoProblem } from "./photo-problems";
import { StepForm } from "./step-form";
import { StepLine } from "./step-line";
import { Summary } from "./summary";

export const metadata: Metadata = { title: "Bench inspection" };

const stepSchema = z.enum(BENCH_STEPS);

export default async function BenchInspectionPage({ params, searchParams }: { params: Promise<{ claimId: string }>; searchParams: Promise<QueryParameters> }) {
  const [{ claimId }, query] = await Promise.all([params, searchParams]);
  const actor = await requireStaff(`/queue/${claimId}/bench-inspection`);
  const id = z.uuid().safeParse(claimId);
  const sheet = id.success ? await loadInspection(actor, id.data) : null;
  if (sheet && !sheet.ok && sheet.reason === "not-allowed") forbidden();
  if (!sheet?.ok) notFound();
  const { unit, open } = sheet;
  const { after, step, photo } = firstValues(query);
  const saved = stepSchema.safeParse(after).data;
  const shown = open?.isMine ? stepToShow(sheet, step, saved) : null;
  return (
    <DeskShell actor={actor} here="Returns">
      <p className={`small ${styles.way}`}>
        <Link href="/returns">All returns</Link> / <Link href={`/queue/${unit.claimId}`}>claim {unit.reference}</Link>
      </p>
      {saved ? <ForgetTyped copyKey={stepCopyKey(unit.claimId, saved)} /> : null}
      {shown ? (
        <Step sheet={sheet} shown={shown} saved={saved} photoProblem={benchPhotoProblem(photo)} />
      ) : open ? (
        <>
          {open.isMine ? (
            <>
              <Moved sheet={sheet} saved={saved} />
              <StepLine claimId={unit.claimId} steps={sheet.steps} current={null} />
            </>
          ) : null}
          <h1>{open.isMine ? `What the bench found on ${unit.number}` : `${open.holder} is inspecting ${unit.number}`}</h1>
          {open.isMine ? null : (
            <form action={takeOverHere.bind(null, unit.claimId)} className={styles.takeOver}>
              <p>Since {dayIn(sheet.timeZone, open.startedAt)}. What is kept so far stands below. Take it over if they have stopped: nothing of theirs is lost, and they are told.</p>
              <button type="submit" className="button">
                Take it over
              </button>
            </form>
          )}
          <Summary sheet={sheet} />
        </>
      ) : (
        <Start sheet={sheet} />
      )}
    </DeskShell>
  );
}

/** The step asked for, else the next one after the one just kept that is still open; null for the summary. */
function stepToShow({ steps }: InspectionSheet, asked: string | undefined, saved: BenchStep | undefined): StepOnSheet | null {
  if (asked) return steps.find(({ step }) => step === asked) ?? null;
  const from = saved ? steps.findIndex(({ step }) => step === saved) + 1 : 0;
  return steps.slice(from).find(({ kept }) => kept === null) ?? null;
}

function Start({ sheet: { unit, steps, finished, timeZone, standing } }: { sheet: InspectionSheet }) {
  return (
    <>
      <h1>{finished ? `${unit.number} has been inspected` : `Inspect the unit of ${unit.number}`}</h1>
      <Identity unit={unit} />
      <WhichOfPair unit={unit} />
      {finished ? (
        <p className={styles.lead}>
          By {finished.by} on {dayIn(timeZone, finished.at)}.{standing.unitProbability === null ? "" : ` Unit at fault: ${percent(standing.unitProbability)}.`}
        </p>
      ) : (
        <p className={styles.lead}>{steps.length} steps, one at a time. Each is kept as you go on; skip what you cannot do and come back to it, on this tablet or another one.</p>
      )}
      <div className="acts">
        {finished ? (
          <Link className={`button ${styles.big}`} href={`/queue/${unit.claimId}/bench-inspection/disposition`}>
            Say what becomes of it
          </Link>
        ) : null}
        <form action={openHere.bind(null, unit.claimId)}>
          <button type="submit" className={`button ${styles.big} ${finished ? "plain" : ""}`}>
            {finished ? "Look at it again" : "Begin"}
          </button>
        </form>
      </div>
    </>
  );
}

const Identity = ({ unit }: { unit: InspectionSheet["unit"] }) => (
  <TitleBlock
    facts={[
      ...[pairInWords(unit), cameOfPairInWords(unit)].flatMap((value) => (value ? [{ name: "Of a pair", value }] : [])),
      { name: "Serial expected", value: unit.serialExpected ?? "not known" },
      { name: "Serial on the unit", value: unit.serialSeen ?? "not read" },
      { name: "Model", value: unit.turbo?.name ?? "not known" },
      { name: "Kit", value: unit.kit ?? "not known" },
    ]}
  />
);

function WhichOfPair({ unit }: { unit: InspectionSheet["unit"] }) {
  const words = measuredOfPairInWords(unit);
  return words ? <p className="note">{words}</p> : null;
}

function Step({ sheet, shown, saved, photoProblem }: { sheet: InspectionSheet; shown: StepOnSheet; saved: BenchStep | undefined; photoProblem: string | null }) {
  const { unit, steps } = sheet;
  const { step, fields, gauges, kept, cautions, photos } = shown;
  const { name, lead } = BENCH_STEP_WORDS[step];
  const isOther = unit.serialMatch === "differs" && unit.sameUnitAt === null;
  const drawings = Object.fromEntries(fields.map(({ name: of }) => [of, OUTLET_DRAWINGS[of] ? { asked: null, options: OUTLET_DRAWINGS[of] } : drawingsOf(of, toStaff)]));
  return (
    <>
      <Moved sheet={sheet} saved={saved} />
      <StepLine claimId={unit.claimId} steps={steps} current={step} />
      <h1>{name}</h1>
      <p className={styles.lead}>{lead}</p>
      {step === "identity" ? (
        <>
          <Identity unit={unit} />
          <WhichOfPair unit={unit} />
          <ScreenDrawing screen="serial" say={toStaff} />
          {isOther ? (
            <p className="error" role="alert">
              {otherSerialInWords(unit)}. If it is another unit, stop here and put it aside at <Link href="/returns">returns</Link>; nothing more is recorded for this claim.
            </p>
          ) : null}
        </>
      ) : null}
      <Cautions codes={cautions} say={toStaff} />
      <BenchPhotos address={`/queue/${unit.claimId}/bench-inspection/photos?step=${step}`} claimId={unit.claimId} photos={photos} attached={steps.reduce((sum, one) => sum + one.photos.length, 0)} problem={photoProblem} />
      <StepForm key={step} action={saveStepHere.bind(null, unit.claimId, step)} fields={fields} gauges={gauges} drawings={drawings} kept={kept?.typed ?? {}} asksSameUnit={step === "identity" && isOther} copyKey={stepCopyKey(unit.claimId, step)} />
    </>
  );
}

/** What the step just kept did to the ranking, and the whole inspection so far. */
function Moved({ sheet: { steps, open }, saved }: { sheet: InspectionSheet; saved: BenchStep | undefined }) {
  const record = steps.find(({ step }) => step === saved)?.kept;
  const byStep = record ? moveInWords(record) : null;
  const whole = open?.move ? moveInWords(open.move) : null;
  if (!record && !whole) return null;
  return (
    <div className={styles.moved} role="status">
      {saved && record ? (
        <p>
          {BENCH_STEP_WORDS[saved].name}: {record.isSkipped ? "skipped" : "kept"}. {byStep ? <strong>{byStep[0]?.toUpperCase() + byStep.slice(1)}.</strong> : record.isSkipped ? "" : "The ranking stays."}
        </p>
      ) : null}
      {whole ? <p className="small">Since this inspection began: {whole}.</p> : null}
    </div>
  );
}
