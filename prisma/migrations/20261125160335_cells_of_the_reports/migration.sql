-- CreateEnum
CREATE TYPE "cause_role" AS ENUM ('primary', 'contributing', 'probable');

-- CreateTable
CREATE TABLE "report_claim" (
    "claim_id" UUID NOT NULL,
    "kit_revision_id" UUID,
    "vehicle_id" UUID,
    "month" DATE,
    "batch" TEXT,
    "fitter_id" UUID,
    "filed_at" TIMESTAMPTZ(3) NOT NULL,
    "month_in_service" INTEGER,
    "outcome" TEXT NOT NULL,
    "cause" TEXT,
    "contributing" TEXT[],
    "origin" "origin",
    "probable" JSONB NOT NULL DEFAULT '[]',
    "costs" JSONB NOT NULL DEFAULT '{}',

    CONSTRAINT "report_claim_pkey" PRIMARY KEY ("claim_id")
);

-- CreateTable
CREATE TABLE "shipped_cell" (
    "id" BIGSERIAL NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "vehicle_id" UUID,
    "month" DATE NOT NULL,
    "batch" TEXT,
    "units" INTEGER NOT NULL,

    CONSTRAINT "shipped_cell_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "claim_cell" (
    "id" BIGSERIAL NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "vehicle_id" UUID,
    "month" DATE NOT NULL,
    "fit" INTEGER NOT NULL,
    "kit" INTEGER NOT NULL,
    "engine" INTEGER NOT NULL,
    "unit" INTEGER NOT NULL,
    "normal" INTEGER NOT NULL,
    "transit" INTEGER NOT NULL,
    "elsewhere" INTEGER NOT NULL,
    "undecided" INTEGER NOT NULL,
    "ended" INTEGER NOT NULL,

    CONSTRAINT "claim_cell_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "cause_cell" (
    "id" BIGSERIAL NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "vehicle_id" UUID,
    "month" DATE NOT NULL,
    "role" "cause_role" NOT NULL,
    "cause" TEXT NOT NULL,
    "attribution" TEXT NOT NULL,
    "origin" "origin",
    "millionths" BIGINT NOT NULL,

    CONSTRAINT "cause_cell_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "cost_cell" (
    "id" BIGSERIAL NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "vehicle_id" UUID,
    "month" DATE NOT NULL,
    "cause" TEXT,
    "outcome" TEXT NOT NULL,
    "origin" "origin",
    "currency" CHAR(3) NOT NULL,
    "amount_minor" BIGINT NOT NULL,

    CONSTRAINT "cost_cell_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "report_mark" (
    "id" BIGSERIAL NOT NULL,
    "claim_id" UUID NOT NULL,
    "marked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "report_mark_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "shipped_change" (
    "id" BIGSERIAL NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "vehicle_id" UUID,
    "month" DATE NOT NULL,
    "batch" TEXT,
    "units" INTEGER NOT NULL,
    "marked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "shipped_change_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "report_claim_kit_revision_id_vehicle_id_month_idx" ON "report_claim"("kit_revision_id", "vehicle_id", "month");

-- CreateIndex
CREATE INDEX "report_claim_vehicle_id_month_idx" ON "report_claim"("vehicle_id", "month");

-- CreateIndex
CREATE INDEX "report_claim_batch_idx" ON "report_claim"("batch");

-- CreateIndex
CREATE INDEX "report_claim_fitter_id_idx" ON "report_claim"("fitter_id");

-- CreateIndex
CREATE INDEX "report_claim_filed_at_idx" ON "report_claim"("filed_at");

-- CreateIndex
CREATE INDEX "report_claim_cause_month_idx" ON "report_claim"("cause", "month");

-- CreateIndex
CREATE INDEX "shipped_cell_month_idx" ON "shipped_cell"("month");

-- CreateIndex
CREATE INDEX "shipped_cell_batch_idx" ON "shipped_cell"("batch");

-- CreateIndex
CREATE UNIQUE INDEX "shipped_cell_key" ON "shipped_cell"("kit_revision_id", "vehicle_id", "month", "batch") NULLS NOT DISTINCT;

-- CreateIndex
CREATE INDEX "claim_cell_month_idx" ON "claim_cell"("month");

-- CreateIndex
CREATE UNIQUE INDEX "claim_cell_key" ON "claim_cell"("kit_revision_id", "vehicle_id", "month") NULLS NOT DISTINCT;

-- CreateIndex
CREATE INDEX "cause_cell_cause_role_month_idx" ON "cause_cell"("cause", "role", "month");

-- CreateIndex
CREATE INDEX "cause_cell_month_idx" ON "cause_cell"("month");

-- CreateIndex
CREATE UNIQUE INDEX "cause_cell_key" ON "cause_cell"("kit_revision_id", "vehicle_id", "month", "role", "cause", "attribution", "origin") NULLS NOT DISTINCT;

-- CreateIndex
CREATE INDEX "cost_cell_month_idx" ON "cost_cell"("month");

-- CreateIndex
CREATE UNIQUE INDEX "cost_cell_key" ON "cost_cell"("kit_revision_id", "vehicle_id", "month", "cause", "outcome", "origin", "currency") NULLS NOT DISTINCT;

-- What changes a report is noted down by triggers, so that no way of changing a claim or a shipment can forget it. Notes
-- are only ever added, by whoever changes something, and taken away by one worker at a time: nobody waits for anybody.

CREATE FUNCTION "mark_claim"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' THEN
    INSERT INTO report_mark (claim_id) VALUES (OLD.id);
  ELSE
    INSERT INTO report_mark (claim_id) VALUES (NEW.id);
  END IF;
  RETURN NULL;
END
$$;

CREATE TRIGGER "claim_marks_itself" AFTER INSERT ON "claim"
  FOR EACH ROW WHEN (NEW.stage <> 'draft') EXECUTE FUNCTION "mark_claim"();
CREATE TRIGGER "changed_claim_marks_itself" AFTER UPDATE OF "stage", "shipment_id", "unit_id", "kit_revision_id", "vehicle_id", "fitter_id", "fitted_on", "filed_at" ON "claim"
  FOR EACH ROW WHEN (NEW.stage <> 'draft' OR OLD.stage <> 'draft') EXECUTE FUNCTION "mark_claim"();
CREATE TRIGGER "removed_claim_marks_itself" AFTER DELETE ON "claim"
  FOR EACH ROW WHEN (OLD.stage <> 'draft') EXECUTE FUNCTION "mark_claim"();

CREATE FUNCTION "mark_claim_of_row"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP <> 'INSERT' THEN
    INSERT INTO report_mark (claim_id) VALUES (OLD.claim_id);
  END IF;
  IF TG_OP <> 'DELETE' THEN
    INSERT INTO report_mark (claim_id) VALUES (NEW.claim_id);
  END IF;
  RETURN NULL;
END
$$;

CREATE TRIGGER "verdict_marks_its_claim" AFTER INSERT OR UPDATE OR DELETE ON "verdict" FOR EACH ROW EXECUTE FUNCTION "mark_claim_of_row"();
CREATE TRIGGER "settlement_marks_its_claim" AFTER INSERT OR UPDATE OR DELETE ON "settlement" FOR EACH ROW EXECUTE FUNCTION "mark_claim_of_row"();
CREATE TRIGGER "ranking_marks_its_claim" AFTER INSERT OR UPDATE OR DELETE ON "ranking" FOR EACH ROW EXECUTE FUNCTION "mark_claim_of_row"();

-- Shipments come by the hundred thousand: one statement adds as many notes as it touches cells.
CREATE FUNCTION "note_shipped"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
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

CREATE TRIGGER "shipment_is_noted" AFTER INSERT ON "shipment" REFERENCING NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION "note_shipped"();
CREATE TRIGGER "changed_shipment_is_noted" AFTER UPDATE ON "shipment" REFERENCING OLD TABLE AS old_rows NEW TABLE AS new_rows FOR EACH STATEMENT EXECUTE FUNCTION "note_shipped"();
CREATE TRIGGER "removed_shipment_is_noted" AFTER DELETE ON "shipment" REFERENCING OLD TABLE AS old_rows FOR EACH STATEMENT EXECUTE FUNCTION "note_shipped"();

CREATE FUNCTION "note_batch"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  INSERT INTO shipped_change (kit_revision_id, vehicle_id, month, batch, units)
  SELECT s.kit_revision_id, s.vehicle_id, date_trunc('month', s.shipped_on::timestamp)::date, moved.batch, moved.units
  FROM shipment AS s CROSS JOIN (VALUES (OLD.batch, -1), (NEW.batch, 1)) AS moved (batch, units) WHERE s.unit_id = NEW.id;
  INSERT INTO report_mark (claim_id) SELECT c.id FROM shipment AS s JOIN claim AS c ON c.shipment_id = s.id WHERE s.unit_id = NEW.id AND c.stage <> 'draft';
  RETURN NULL;
END
$$;

CREATE TRIGGER "batch_is_noted" AFTER UPDATE OF "batch" ON "unit" FOR EACH ROW WHEN (OLD.batch <> NEW.batch) EXECUTE FUNCTION "note_batch"();

-- What there is already is taken over like any change.
INSERT INTO report_mark (claim_id) SELECT id FROM claim WHERE stage <> 'draft';
INSERT INTO shipped_change (kit_revision_id, vehicle_id, month, batch, units)
SELECT s.kit_revision_id, s.vehicle_id, date_trunc('month', s.shipped_on::timestamp)::date, u.batch, count(*)
FROM shipment AS s LEFT JOIN unit AS u ON u.id = s.unit_id GROUP BY 1, 2, 3, 4;
