import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { Caution } from "@/app/_components/caution";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { otherSerialInWords } from "@/app/returns/return-words";
import { requireStaff } from "@/lib/access/staff";
import { CAUTIONS } from "@/lib/domain/diagnosis/cautions";
import { benchFields, benchFindings } from "@/lib/inputs/returns";
import { loadUnitOnBench } from "@/lib/operations/load-returns";
import { recordInspectionHere } from "./actions";
import { inspectionCopyKey } from "./copy-key";
import { InspectionForm } from "./inspection-form";

export const metadata: Metadata = { title: "Bench inspection" };

export default async function BenchInspectionPage({ params }: { params: Promise<{ claimId: string }> }) {
  const { claimId } = await params;
  const actor = await requireStaff(`/queue/${claimId}/bench-inspection`);
  const id = z.uuid().safeParse(claimId);
  const loaded = id.success ? await loadUnitOnBench(actor, id.data) : null;
  if (loaded && !loaded.ok && loaded.reason === "not-allowed") forbidden();
  if (!loaded?.ok) notFound();
  const { unit, edition } = loaded;
  const { turbo } = unit;
  const cautions = [...new Set(benchFindings(edition).flatMap((definition) => definition.cautions))].sort();
  return (
    <DeskShell actor={actor} here="Returns">
      <p>
        <Link href="/returns">All returns</Link>
      </p>
      <h1>Inspect the unit of {unit.number}</h1>
      <TitleBlock
        facts={[
          { name: "Claim", value: <Link href={`/queue/${unit.claimId}`}>{unit.reference}</Link> },
          { name: "Kit", value: unit.kit ?? "not known" },
          { name: "Vehicle", value: unit.vehicle ?? "not known" },
          { name: "Serial on the unit", value: unit.serialSeen ?? "not read" },
          { name: "Serial expected", value: unit.serialExpected ?? "not known" },
        ]}
      />
      <InspectionForm
        action={recordInspectionHere.bind(null, unit.claimId)}
        fields={benchFields(edition)}
        limits={turbo}
        otherSerial={unit.serialMatch === "differs" ? otherSerialInWords(unit) : null}
        copyKey={inspectionCopyKey(unit.claimId)}
        cautions={cautions.map((code) => (
          <Caution key={code} title={CAUTIONS[code].title}>
            {CAUTIONS[code].sentence}
          </Caution>
        ))}
      />
    </DeskShell>
  );
}
