-- DropIndex
DROP INDEX "report_claim_kit_revision_id_vehicle_id_month_idx";

-- CreateIndex
CREATE INDEX "report_claim_kit_revision_id_vehicle_id_month_outcome_batch_idx" ON "report_claim"("kit_revision_id", "vehicle_id", "month", "outcome", "batch", "fitter_id");
