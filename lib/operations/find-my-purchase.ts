import "server-only";
import type { DraftChanges } from "@/lib/data/drafts";
import { findRevisionSoldOn, findShipmentOfUnit, findShipmentsOfOrder } from "@/lib/data/purchases";
import type { IntakeAnswers, Screen } from "@/lib/domain/intake/answers";
import { DONT_KNOW, OTHER } from "@/lib/domain/intake/screens";
import type { ScreenValues } from "@/lib/inputs/intake";

export type PurchaseFound = { ok: true; changes: DraftChanges; values: ScreenValues } | { ok: false; reason: "no-such-order" | "no-such-serial" };

const NOTHING: DraftChanges = { shipmentId: null, unitId: null, kitRevisionId: null, vehicleId: null };

/**
 * What an answer tells of the purchase: the columns that change, and the values to keep. An order is found only with the
 * address it was placed with; a serial tells the kit and nothing about who bought it or for what vehicle. Part of
 * `saveAnswer`, which has checked who asks and how often.
 *
 * @param goesOnWithout the customer was told that nothing was found, and goes on
 */
export async function findMyPurchase(screen: Screen, values: ScreenValues, answers: IntakeAnswers, goesOnWithout: boolean): Promise<PurchaseFound> {
  switch (screen) {
    case "purchase":
      return { ok: true, values, changes: values.by === answers.purchase?.by ? {} : NOTHING };
    case "order": {
      const shipments = await findShipmentsOfOrder(values.number ?? "", values.email ?? "");
      const [only] = shipments;
      if (!only) return goesOnWithout ? { ok: true, values: { ...values, unmatched: "yes" }, changes: NOTHING } : { ok: false, reason: "no-such-order" };
      return { ok: true, values: { ...values, matches: String(shipments.length) }, changes: shipments.length === 1 ? shipmentChanges(only) : NOTHING };
    }
    case "item": {
      if (values.shipment === DONT_KNOW) return { ok: true, values, changes: NOTHING };
      const shipments = await findShipmentsOfOrder(answers.order?.number ?? "", answers.order?.email ?? "");
      const chosen = shipments.find(({ id }) => id === values.shipment);
      return chosen ? { ok: true, values, changes: shipmentChanges(chosen) } : { ok: false, reason: "no-such-order" };
    }
    case "serial": {
      const shipment = await findShipmentOfUnit(values.serial ?? "");
      if (!shipment) return goesOnWithout ? { ok: true, values: { ...values, unmatched: "yes" }, changes: NOTHING } : { ok: false, reason: "no-such-serial" };
      return { ok: true, values, changes: { ...shipmentChanges(shipment), vehicleId: null } };
    }
    case "kit": {
      const revision = values.kit === DONT_KNOW ? null : await findRevisionSoldOn(values.kit ?? "", new Date());
      return { ok: true, values, changes: { ...NOTHING, kitRevisionId: revision?.id ?? null } };
    }
    case "vehicle":
      return { ok: true, values, changes: { vehicleId: values.vehicle === OTHER ? null : (values.vehicle ?? null) } };
    default:
      return { ok: true, values, changes: {} };
  }
}

function shipmentChanges(shipment: { id: string; unitId: string | null; kitRevisionId: string; vehicleId: string | null }): DraftChanges {
  return { shipmentId: shipment.id, unitId: shipment.unitId, kitRevisionId: shipment.kitRevisionId, vehicleId: shipment.vehicleId };
}
