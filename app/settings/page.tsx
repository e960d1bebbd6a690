import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { loadSettingsToChange } from "@/lib/operations/change-settings";
import { SettingsForm } from "./settings-form";

export const metadata: Metadata = { title: "Settings" };

export default async function SettingsPage({ searchParams }: { searchParams: Promise<{ said?: string }> }) {
  const actor = await requireStaff("/settings");
  const loaded = await loadSettingsToChange(actor);
  if (!loaded.ok) forbidden();
  const { settings, seen } = loaded;
  const { said } = await searchParams;
  return (
    <DeskShell actor={actor} here="Settings">
      <h1>{`${settings.name} answers within ${settings.promisedAnswerHours} working hours`}</h1>
      {said === "changed" ? (
        <p className="note" role="status">
          <strong>Kept. They hold for what is promised and written from now on.</strong>
        </p>
      ) : null}
      <p>
        More on pages of their own: <Link href="/settings/warranty">warranty terms</Link> and <Link href="/settings/templates">message templates</Link>.
      </p>
      <SettingsForm
        settings={{
          ...settings,
          seen,
          workingDays: settings.workingDays.join(" "),
          promisedAnswerHours: String(settings.promisedAnswerHours),
          returnWithinDays: String(settings.returnWithinDays),
          firstReminderDays: String(settings.firstReminderDays),
          secondReminderDays: String(settings.secondReminderDays),
          lapseNoticeDays: String(settings.lapseNoticeDays),
          lapseDays: String(settings.lapseDays),
          secondOpinionShare: String(settings.secondOpinionShare),
          secondPersonAbove: String(settings.secondPersonAbove),
          unitCost: String(settings.unitCost),
          unitPrice: String(settings.unitPrice),
          repairCost: String(settings.repairCost),
          partCost: String(settings.partCost),
          carriageCost: String(settings.carriageCost),
          goodwillCost: String(settings.goodwillCost),
          needlessReturnCost: String(settings.needlessReturnCost),
          missedDefectCost: String(settings.missedDefectCost),
          wrongAdviceCost: String(settings.wrongAdviceCost),
          customerMinute: String(settings.customerMinute),
          technicianMinute: String(settings.technicianMinute),
          benchMinute: String(settings.benchMinute),
          lowCheck: String(settings.lowCheck),
          middleCheck: String(settings.middleCheck),
          highCheck: String(settings.highCheck),
          cautionCost: String(settings.cautionCost),
        }}
      />
    </DeskShell>
  );
}
