-- CreateEnum
CREATE TYPE "signal_act" AS ENUM ('noted', 'drawing_changed', 'leaflet_changed', 'supplier_told', 'revision_shipped', 'not_real');

-- CreateTable
CREATE TABLE "signal_look" (
    "id" UUID NOT NULL,
    "looked_at" TIMESTAMPTZ(3) NOT NULL,
    "month" DATE NOT NULL,
    "is_formal" BOOLEAN NOT NULL,
    "looked_into" INTEGER NOT NULL,
    "standing_out" INTEGER NOT NULL,
    "raised" INTEGER NOT NULL,
    "units_shipped" INTEGER NOT NULL,
    "claims" INTEGER NOT NULL,
    "took_ms" INTEGER NOT NULL,

    CONSTRAINT "signal_look_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "signal" (
    "id" UUID NOT NULL,
    "kit_id" UUID,
    "kit_revision_id" UUID,
    "vehicle_id" UUID,
    "batch" TEXT,
    "cause" TEXT NOT NULL,
    "first_seen_at" TIMESTAMPTZ(3) NOT NULL,
    "seen_at" TIMESTAMPTZ(3) NOT NULL,
    "stands_out" BOOLEAN NOT NULL,
    "looks" INTEGER NOT NULL,
    "place" INTEGER NOT NULL,
    "first_figures" JSONB NOT NULL,
    "figures" JSONB NOT NULL,
    "watch" JSONB,
    "effect" JSONB,
    "act" "signal_act",
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "signal_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "signal_decision" (
    "id" UUID NOT NULL,
    "signal_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "act" "signal_act" NOT NULL,
    "note" TEXT NOT NULL,
    "holds_from" DATE,
    "kit_revision_id" UUID,
    "decided_by_id" UUID NOT NULL,
    "decided_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "signal_decision_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "signal_look_looked_at_idx" ON "signal_look"("looked_at");

-- CreateIndex
CREATE INDEX "signal_kit_revision_id_idx" ON "signal"("kit_revision_id");

-- CreateIndex
CREATE INDEX "signal_vehicle_id_idx" ON "signal"("vehicle_id");

-- CreateIndex
CREATE UNIQUE INDEX "signal_key" ON "signal"("kit_id", "kit_revision_id", "vehicle_id", "batch", "cause") NULLS NOT DISTINCT;

-- CreateIndex
CREATE INDEX "signal_decision_decided_by_id_idx" ON "signal_decision"("decided_by_id");

-- CreateIndex
CREATE INDEX "signal_decision_kit_revision_id_idx" ON "signal_decision"("kit_revision_id");

-- CreateIndex
CREATE UNIQUE INDEX "signal_decision_signal_id_number_key" ON "signal_decision"("signal_id", "number");

-- AddForeignKey
ALTER TABLE "signal" ADD CONSTRAINT "signal_kit_id_fkey" FOREIGN KEY ("kit_id") REFERENCES "kit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signal" ADD CONSTRAINT "signal_kit_revision_id_fkey" FOREIGN KEY ("kit_revision_id") REFERENCES "kit_revision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signal" ADD CONSTRAINT "signal_vehicle_id_fkey" FOREIGN KEY ("vehicle_id") REFERENCES "vehicle"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signal_decision" ADD CONSTRAINT "signal_decision_signal_id_fkey" FOREIGN KEY ("signal_id") REFERENCES "signal"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signal_decision" ADD CONSTRAINT "signal_decision_kit_revision_id_fkey" FOREIGN KEY ("kit_revision_id") REFERENCES "kit_revision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signal_decision" ADD CONSTRAINT "signal_decision_decided_by_id_fkey" FOREIGN KEY ("decided_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What Prisma cannot say.
ALTER TABLE "signal"
  ADD CONSTRAINT "signal_is_about_a_part" CHECK ("kit_id" IS NOT NULL OR "batch" IS NOT NULL),
  ADD CONSTRAINT "signal_cause_is_a_cause" CHECK ("cause" ~ '^C[0-9]{2,3}$'),
  ADD CONSTRAINT "signal_act_was_decided" CHECK (("act" IS NULL) = ("version" = 0)),
  ADD CONSTRAINT "signal_seen_in_order" CHECK ("seen_at" >= "first_seen_at" AND "looks" >= 1 AND "place" >= 1);

ALTER TABLE "signal_decision"
  ADD CONSTRAINT "signal_decision_holds_from_a_month" CHECK (extract(day FROM "holds_from") = 1),
  ADD CONSTRAINT "signal_decision_change_has_month" CHECK ("act" IN ('noted', 'not_real') OR "holds_from" IS NOT NULL),
  ADD CONSTRAINT "signal_decision_revision_was_shipped" CHECK ("kit_revision_id" IS NULL OR "act" = 'revision_shipped');
