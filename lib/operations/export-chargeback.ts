import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { lineTotal } from "@/lib/domain/claims/chargeback";
import { fromMinor } from "@/lib/domain/claims/money";
import { listSupplierCases } from "@/lib/data/supplier-summary";
import { type FileTable, fileTable } from "@/lib/files/table";
import { loadChargeback } from "./load-chargebacks";
import { type Refusal, refuse } from "./refusal";

const COLUMNS = {
  number: "chargeback",
  line: "line",
  serial: "serial",
  batch: "batch",
  cause: "cause",
  bench: "found at the bench",
  currency: "currency",
  remedy: "remedy",
  carriage: "carriage",
  benchMinutes: "bench, minutes",
  benchCost: "bench",
  asked: "asked",
  accepted: "accepted",
};

/** A chargeback as the supplier gets it: units by serial and batch, what was found and what is asked; nothing of a customer. */
export async function exportChargeback(actor: StaffActor, number: number): Promise<{ ok: true; table: FileTable } | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  const loaded = await loadChargeback(actor, number);
  if (!loaded.ok) return loaded;
  const { chargeback, causeNames } = loaded;
  const { currency, lines } = chargeback;
  const cases = await listSupplierCases(lines.flatMap(({ verdict }) => (verdict ? [{ id: verdict.claimId, monthInService: null }] : [])));
  const money = (minor: number) => fromMinor(minor, currency);
  const rows = lines.map((line, index) => ({
    number,
    line: index + 1,
    serial: line.serial,
    batch: line.batch,
    cause: causeNames.get(line.cause) ?? line.cause,
    bench: cases
      .filter(({ serial }) => serial !== null && serial === line.serial)
      .flatMap(({ bench }) => bench.map(({ code, answer, measured }) => `${code} ${measured ?? answer}`))
      .join("; "),
    currency,
    remedy: money(line.remedyMinor),
    carriage: money(line.carriageMinor),
    benchMinutes: line.benchMinutes,
    benchCost: money(line.benchMinor),
    asked: money(lineTotal(line)),
    accepted: line.acceptedMinor === null ? null : money(line.acceptedMinor),
  }));
  return { ok: true, table: fileTable(COLUMNS, rows) };
}
