-- DropIndex
DROP INDEX "report_claim_cause_month_idx";

-- CreateTable
CREATE TABLE "desk_facts" (
    "id" SERIAL NOT NULL,
    "facts" TEXT NOT NULL,

    CONSTRAINT "desk_facts_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "desk_claim" (
    "claim_id" UUID NOT NULL,
    "filed_at" TIMESTAMPTZ(3) NOT NULL,
    "promised_at" TIMESTAMPTZ(3) NOT NULL,
    "kit_revision_id" UUID,
    "vehicle_id" UUID,
    "facts_id" INTEGER NOT NULL,
    "unit_defective" DOUBLE PRECISION,
    "is_answered" BOOLEAN NOT NULL,
    "is_decided" BOOLEAN NOT NULL,
    "answer_working" INTEGER,
    "answer_calendar" INTEGER,
    "verdict_working" INTEGER,
    "verdict_calendar" INTEGER,

    CONSTRAINT "desk_claim_pkey" PRIMARY KEY ("claim_id")
);

-- CreateIndex
CREATE UNIQUE INDEX "desk_facts_facts_key" ON "desk_facts"("facts");

-- CreateIndex
CREATE INDEX "desk_claim_filed_at_claim_id_idx" ON "desk_claim"("filed_at" DESC, "claim_id");

-- CreateIndex
CREATE INDEX "desk_claim_facts_id_idx" ON "desk_claim"("facts_id");

-- CreateIndex
CREATE INDEX "report_claim_cause_month_month_in_service_kit_revision_id_v_idx" ON "report_claim"("cause", "month", "month_in_service", "kit_revision_id", "vehicle_id", "outcome", "origin");

-- AddForeignKey
ALTER TABLE "desk_claim" ADD CONSTRAINT "desk_claim_facts_id_fkey" FOREIGN KEY ("facts_id") REFERENCES "desk_facts"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A claim that is made probable by its ranking alone: few among many.
CREATE INDEX "report_claim_undecided_idx" ON "report_claim" ("month") WHERE outcome = 'undecided';

-- Whatever tells how the desk dealt with a claim marks it, as what the reports count does.
DROP TRIGGER "changed_claim_marks_itself" ON "claim";
CREATE TRIGGER "changed_claim_marks_itself" AFTER UPDATE OF "stage", "shipment_id", "unit_id", "kit_revision_id", "vehicle_id", "fitter_id", "fitted_on", "filed_at", "promised_at", "first_answer_at" ON "claim"
  FOR EACH ROW WHEN (NEW.stage <> 'draft' OR OLD.stage <> 'draft') EXECUTE FUNCTION "mark_claim"();
CREATE TRIGGER "return_marks_its_claim" AFTER INSERT OR DELETE ON "return" FOR EACH ROW EXECUTE FUNCTION "mark_claim_of_row"();
CREATE TRIGGER "opinion_marks_its_claim" AFTER INSERT OR UPDATE OR DELETE ON "second_opinion" FOR EACH ROW EXECUTE FUNCTION "mark_claim_of_row"();
CREATE TRIGGER "bench_finding_marks_its_claim" AFTER INSERT ON "finding" FOR EACH ROW WHEN (NEW.observer = 'bench') EXECUTE FUNCTION "mark_claim_of_row"();
CREATE TRIGGER "changed_bench_finding_marks_its_claim" AFTER UPDATE OR DELETE ON "finding" FOR EACH ROW WHEN (OLD.observer = 'bench') EXECUTE FUNCTION "mark_claim_of_row"();

CREATE FUNCTION "mark_claim_of_inspection"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  INSERT INTO report_mark (claim_id) SELECT claim_id FROM return WHERE id = coalesce(NEW.return_id, OLD.return_id);
  RETURN NULL;
END
$$;

CREATE TRIGGER "inspection_marks_its_claim" AFTER INSERT OR DELETE ON "bench_inspection" FOR EACH ROW EXECUTE FUNCTION "mark_claim_of_inspection"();

-- Waits are told by the opening hours: when these change, all are told anew.
CREATE FUNCTION "mark_all_claims"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  INSERT INTO report_mark (claim_id) SELECT id FROM claim WHERE stage <> 'draft';
  RETURN NULL;
END
$$;

CREATE TRIGGER "opening_hours_mark_all_claims" AFTER UPDATE ON "seller_settings" FOR EACH ROW
  WHEN ((OLD.time_zone, OLD.working_days, OLD.opens_at, OLD.closes_at) IS DISTINCT FROM (NEW.time_zone, NEW.working_days, NEW.opens_at, NEW.closes_at))
  EXECUTE FUNCTION "mark_all_claims"();

-- A shipment moved while its unit's batch is put right: each would note the other as it was, and a unit would be counted
-- where it is not. So whoever changes a batch waits for those who change shipments, and they for it.
CREATE OR REPLACE FUNCTION "note_shipped"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_advisory_xact_lock_shared(7316402554);
  IF TG_OP <> 'INSERT' THEN
    INSERT INTO shipped_change (kit_revision_id, vehicle_id, month, batch, units)
    SELECT s.kit_revision_id, s.vehicle_id, date_trunc('month', s.shipped_on::timestamp)::date, u.batch, -count(*)
    FROM old_rows AS s LEFT JOIN unit AS u ON u.id = s.unit_id GROUP BY 1, 2, 3, 4;
    INSERT INTO report_mark (claim_id) SELECT c.id FROM old_rows AS s JOIN claim AS c ON c.shipment_id = s.id WHERE c.stage <> 'draft';
  END IF;
  IF TG_OP <> 'DELETE' THEN
    INSERT INTO shipped_change (kit_revision_id, vehicle_id, month, batch, units)
    SELECT s.kit_revision_id, s.vehicle_id, date_trunc('month', s.shipped_on::timestamp)::date, u.batch, count(*)
    FROM new_rows AS s LEFT JOIN unit AS u ON u.id = s.unit_id GROUP BY 1, 2, 3, 4;
  END IF;
  RETURN NULL;
END
$$;

CREATE OR REPLACE FUNCTION "note_batch"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(7316402554);
  INSERT INTO shipped_change (kit_revision_id, vehicle_id, month, batch, units)
  SELECT s.kit_revision_id, s.vehicle_id, date_trunc('month', s.shipped_on::timestamp)::date, moved.batch, moved.units
  FROM shipment AS s CROSS JOIN (VALUES (OLD.batch, -1), (NEW.batch, 1)) AS moved (batch, units) WHERE s.unit_id = NEW.id;
  INSERT INTO report_mark (claim_id) SELECT c.id FROM shipment AS s JOIN claim AS c ON c.shipment_id = s.id WHERE s.unit_id = NEW.id AND c.stage <> 'draft';
  RETURN NULL;
END
$$;

-- What there is already is taken over like any change.
INSERT INTO report_mark (claim_id) SELECT id FROM claim WHERE stage <> 'draft';
