import "server-only";
import type { SellerSettings } from "@/lib/data/settings";
import type { RemedyPrices, RemedyStakes } from "@/lib/domain/claims/remedy-costs";

/** What remedies cost this seller, the unit as its model says where it does. Part of the operations about verdicts. */
export function remedyPricesOf(settings: SellerSettings, model: { replacementCost: number | null } | null | undefined): RemedyPrices {
  return { unit: model?.replacementCost ?? settings.unitCost, unitPrice: settings.unitPrice, repair: settings.repairCost, part: settings.partCost, carriage: settings.carriageCost, goodwill: settings.goodwillCost };
}

export const remedyStakesOf = ({ wrongAdviceCost, missedDefectCost }: SellerSettings): RemedyStakes => ({ repeatContact: wrongAdviceCost, missedDefect: missedDefectCost });
