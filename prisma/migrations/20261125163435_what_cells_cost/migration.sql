-- CreateTable
CREATE TABLE "spent_cell" (
    "id" BIGSERIAL NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "vehicle_id" UUID,
    "month" DATE NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "amount_minor" BIGINT NOT NULL,

    CONSTRAINT "spent_cell_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "spent_cell_month_idx" ON "spent_cell"("month");

-- CreateIndex
CREATE UNIQUE INDEX "spent_cell_key" ON "spent_cell"("kit_revision_id", "vehicle_id", "month", "currency") NULLS NOT DISTINCT;

-- What was counted before this table was there is added up from the finer cells.
INSERT INTO spent_cell (kit_revision_id, vehicle_id, month, currency, amount_minor)
SELECT kit_revision_id, vehicle_id, month, currency, sum(amount_minor) FROM cost_cell GROUP BY 1, 2, 3, 4 HAVING sum(amount_minor) <> 0;
