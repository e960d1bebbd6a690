-- DropIndex
DROP INDEX "desk_claim_facts_id_idx";

-- DropIndex
DROP INDEX "desk_claim_filed_at_claim_id_idx";

-- CreateIndex
CREATE INDEX "desk_claim_filed_at_claim_id_facts_id_unit_defective_promis_idx" ON "desk_claim"("filed_at" DESC, "claim_id", "facts_id", "unit_defective", "promised_at", "is_answered", "is_decided", "answer_working", "answer_calendar", "verdict_working", "verdict_calendar");

-- CreateIndex
CREATE INDEX "desk_claim_kit_revision_id_filed_at_idx" ON "desk_claim"("kit_revision_id", "filed_at");

-- CreateIndex
CREATE INDEX "desk_claim_vehicle_id_filed_at_idx" ON "desk_claim"("vehicle_id", "filed_at");

-- Waits are kept to three figures from now on.
INSERT INTO report_mark (claim_id) SELECT claim_id FROM desk_claim;
