-- AlterTable
ALTER TABLE "spent_cell" ADD COLUMN     "claims" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "squared_minor" DECIMAL(40,0) NOT NULL DEFAULT 0;
ALTER TABLE "spent_cell" ALTER COLUMN "claims" DROP DEFAULT,
ALTER COLUMN "squared_minor" DROP DEFAULT;

-- CreateTable
CREATE TABLE "filed_cell" (
    "id" BIGSERIAL NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "month" DATE NOT NULL,
    "filed_month" DATE NOT NULL,
    "month_in_service" INTEGER NOT NULL,
    "claims" INTEGER NOT NULL,

    CONSTRAINT "filed_cell_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "filed_cell_month_idx" ON "filed_cell"("month");

-- CreateIndex
CREATE UNIQUE INDEX "filed_cell_key" ON "filed_cell"("kit_revision_id", "month", "filed_month", "month_in_service");

-- What was counted before these were there is counted from the lines of the claims, while no worker takes anything over.
SELECT pg_advisory_xact_lock(7316402552);
INSERT INTO filed_cell (kit_revision_id, month, filed_month, month_in_service, claims)
SELECT kit_revision_id, month, date_trunc('month', filed_at AT TIME ZONE 'UTC')::date, month_in_service, count(*)
FROM report_claim WHERE month IS NOT NULL GROUP BY 1, 2, 3, 4;
UPDATE spent_cell AS spent SET claims = counted.claims, squared_minor = counted.squared_minor
FROM (
  SELECT kit_revision_id, vehicle_id, month, booked.key AS currency, count(*) AS claims, sum(booked.value::numeric * booked.value::numeric) AS squared_minor
  FROM report_claim CROSS JOIN LATERAL jsonb_each_text(costs) AS booked WHERE month IS NOT NULL GROUP BY 1, 2, 3, 4
) AS counted
WHERE counted.kit_revision_id = spent.kit_revision_id AND counted.vehicle_id IS NOT DISTINCT FROM spent.vehicle_id AND counted.month = spent.month AND counted.currency = spent.currency;
