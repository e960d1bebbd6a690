-- CreateIndex
CREATE INDEX "report_claim_kit_revision_id_filed_at_claim_id_month_idx" ON "report_claim"("kit_revision_id", "filed_at" DESC, "claim_id", "month");
