-- DropIndex
DROP INDEX "report_claim_filed_at_idx";

-- CreateTable
CREATE TABLE "aged_cell" (
    "id" BIGSERIAL NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "vehicle_id" UUID,
    "month" DATE NOT NULL,
    "month_in_service" INTEGER NOT NULL,
    "fit" INTEGER NOT NULL,
    "kit" INTEGER NOT NULL,
    "engine" INTEGER NOT NULL,
    "unit" INTEGER NOT NULL,
    "normal" INTEGER NOT NULL,
    "transit" INTEGER NOT NULL,
    "elsewhere" INTEGER NOT NULL,
    "undecided" INTEGER NOT NULL,
    "ended" INTEGER NOT NULL,

    CONSTRAINT "aged_cell_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "aged_spent_cell" (
    "id" BIGSERIAL NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "vehicle_id" UUID,
    "month" DATE NOT NULL,
    "month_in_service" INTEGER NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "amount_minor" BIGINT NOT NULL,

    CONSTRAINT "aged_spent_cell_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "aged_cell_month_idx" ON "aged_cell"("month");

-- CreateIndex
CREATE UNIQUE INDEX "aged_cell_key" ON "aged_cell"("kit_revision_id", "vehicle_id", "month", "month_in_service") NULLS NOT DISTINCT;

-- CreateIndex
CREATE INDEX "aged_spent_cell_month_idx" ON "aged_spent_cell"("month");

-- CreateIndex
CREATE UNIQUE INDEX "aged_spent_cell_key" ON "aged_spent_cell"("kit_revision_id", "vehicle_id", "month", "month_in_service", "currency") NULLS NOT DISTINCT;

-- CreateIndex
CREATE INDEX "report_claim_filed_at_claim_id_month_idx" ON "report_claim"("filed_at" DESC, "claim_id", "month");

-- What was counted before these were there is counted from the lines of the claims, while no worker takes anything over.
SELECT pg_advisory_xact_lock(7316402552);
INSERT INTO aged_cell (kit_revision_id, vehicle_id, month, month_in_service, fit, kit, engine, unit, normal, transit, elsewhere, undecided, ended)
SELECT kit_revision_id, vehicle_id, month, month_in_service,
  count(*) FILTER (WHERE outcome = 'fit'),
  count(*) FILTER (WHERE outcome = 'kit'),
  count(*) FILTER (WHERE outcome = 'engine'),
  count(*) FILTER (WHERE outcome = 'unit'),
  count(*) FILTER (WHERE outcome = 'normal'),
  count(*) FILTER (WHERE outcome = 'transit'),
  count(*) FILTER (WHERE outcome = 'elsewhere'),
  count(*) FILTER (WHERE outcome = 'undecided'),
  count(*) FILTER (WHERE outcome = 'ended')
FROM report_claim WHERE month IS NOT NULL GROUP BY 1, 2, 3, 4;
INSERT INTO aged_spent_cell (kit_revision_id, vehicle_id, month, month_in_service, currency, amount_minor)
SELECT kit_revision_id, vehicle_id, month, month_in_service, booked.key, sum(booked.value::bigint)
FROM report_claim CROSS JOIN LATERAL jsonb_each_text(costs) AS booked WHERE month IS NOT NULL GROUP BY 1, 2, 3, 4, 5;
