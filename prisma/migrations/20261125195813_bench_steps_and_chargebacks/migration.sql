-- CreateEnum
CREATE TYPE "chargeback_state" AS ENUM ('draft', 'sent', 'accepted', 'accepted_in_part', 'refused', 'closed');

-- CreateEnum
CREATE TYPE "bench_step" AS ENUM ('identity', 'outside', 'outlet', 'fore_and_aft', 'radial', 'rig', 'rings', 'wheels', 'oilways', 'other');

-- CreateEnum
CREATE TYPE "disposition_kind" AS ENUM ('returned_to_customer', 'restocked', 'repaired', 'scrapped', 'held_as_evidence', 'sent_to_supplier');

-- AlterTable
ALTER TABLE "bench_inspection" ADD COLUMN     "started_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
ALTER COLUMN "inspected_at" DROP NOT NULL,
ALTER COLUMN "inspected_at" DROP DEFAULT;

-- AlterTable
ALTER TABLE "kit" ADD COLUMN     "supplier_id" UUID;

-- AlterTable
ALTER TABLE "photo" ADD COLUMN     "bench_inspection_id" UUID,
ADD COLUMN     "bench_step" "bench_step";

-- AlterTable
ALTER TABLE "turbo_model" ADD COLUMN     "supplier_id" UUID;

-- CreateTable
CREATE TABLE "supplier" (
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "answer_within_days" INTEGER NOT NULL DEFAULT 30,

    CONSTRAINT "supplier_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "chargeback" (
    "id" UUID NOT NULL,
    "number" SERIAL NOT NULL,
    "supplier_id" UUID NOT NULL,
    "state" "chargeback_state" NOT NULL DEFAULT 'draft',
    "currency" CHAR(3) NOT NULL,
    "bench_minute" DOUBLE PRECISION NOT NULL,
    "carriage_minor" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "version" INTEGER NOT NULL DEFAULT 0,
    "made_by_id" UUID NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sent_at" TIMESTAMPTZ(3),
    "answer_due_on" DATE,
    "closed_at" TIMESTAMPTZ(3),

    CONSTRAINT "chargeback_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "chargeback_line" (
    "id" UUID NOT NULL,
    "chargeback_id" UUID NOT NULL,
    "verdict_id" UUID,
    "serial" TEXT,
    "batch" TEXT,
    "cause" TEXT NOT NULL,
    "remedy_minor" INTEGER NOT NULL,
    "carriage_minor" INTEGER NOT NULL,
    "bench_minutes" INTEGER NOT NULL,
    "bench_minor" INTEGER NOT NULL,

    CONSTRAINT "chargeback_line_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "chargeback_answer" (
    "id" UUID NOT NULL,
    "line_id" UUID NOT NULL,
    "accepted_minor" INTEGER NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "booked_by_id" UUID NOT NULL,
    "booked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "superseded_at" TIMESTAMPTZ(3),

    CONSTRAINT "chargeback_answer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "bench_step_record" (
    "inspection_id" UUID NOT NULL,
    "step" "bench_step" NOT NULL,
    "is_skipped" BOOLEAN NOT NULL DEFAULT false,
    "typed" JSONB NOT NULL DEFAULT '{}',
    "unit_before" DOUBLE PRECISION,
    "unit_after" DOUBLE PRECISION,
    "leader_before" TEXT,
    "leader_after" TEXT,
    "saved_by_id" UUID NOT NULL,
    "saved_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "bench_step_record_pkey" PRIMARY KEY ("inspection_id","step")
);

-- CreateTable
CREATE TABLE "disposition" (
    "id" UUID NOT NULL,
    "return_id" UUID NOT NULL,
    "kind" "disposition_kind" NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "keep_until" DATE,
    "decided_by_id" UUID NOT NULL,
    "decided_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "superseded_at" TIMESTAMPTZ(3),

    CONSTRAINT "disposition_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "supplier_code_key" ON "supplier"("code");

-- CreateIndex
CREATE UNIQUE INDEX "chargeback_number_key" ON "chargeback"("number");

-- CreateIndex
CREATE INDEX "chargeback_supplier_id_made_at_idx" ON "chargeback"("supplier_id", "made_at");

-- CreateIndex
CREATE INDEX "chargeback_made_by_id_idx" ON "chargeback"("made_by_id");

-- CreateIndex
CREATE UNIQUE INDEX "chargeback_line_verdict_id_key" ON "chargeback_line"("verdict_id");

-- CreateIndex
CREATE INDEX "chargeback_line_chargeback_id_idx" ON "chargeback_line"("chargeback_id");

-- CreateIndex
CREATE INDEX "chargeback_answer_line_id_idx" ON "chargeback_answer"("line_id");

-- CreateIndex
CREATE INDEX "chargeback_answer_booked_by_id_idx" ON "chargeback_answer"("booked_by_id");

-- CreateIndex
CREATE INDEX "bench_step_record_saved_by_id_idx" ON "bench_step_record"("saved_by_id");

-- CreateIndex
CREATE INDEX "disposition_return_id_idx" ON "disposition"("return_id");

-- CreateIndex
CREATE INDEX "disposition_decided_by_id_idx" ON "disposition"("decided_by_id");

-- CreateIndex
CREATE INDEX "kit_supplier_id_idx" ON "kit"("supplier_id");

-- CreateIndex
CREATE INDEX "photo_bench_inspection_id_idx" ON "photo"("bench_inspection_id");

-- CreateIndex
CREATE INDEX "turbo_model_supplier_id_idx" ON "turbo_model"("supplier_id");

-- AddForeignKey
ALTER TABLE "turbo_model" ADD CONSTRAINT "turbo_model_supplier_id_fkey" FOREIGN KEY ("supplier_id") REFERENCES "supplier"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "kit" ADD CONSTRAINT "kit_supplier_id_fkey" FOREIGN KEY ("supplier_id") REFERENCES "supplier"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "chargeback" ADD CONSTRAINT "chargeback_supplier_id_fkey" FOREIGN KEY ("supplier_id") REFERENCES "supplier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "chargeback" ADD CONSTRAINT "chargeback_made_by_id_fkey" FOREIGN KEY ("made_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "chargeback_line" ADD CONSTRAINT "chargeback_line_chargeback_id_fkey" FOREIGN KEY ("chargeback_id") REFERENCES "chargeback"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "chargeback_line" ADD CONSTRAINT "chargeback_line_verdict_id_fkey" FOREIGN KEY ("verdict_id") REFERENCES "verdict"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "chargeback_answer" ADD CONSTRAINT "chargeback_answer_line_id_fkey" FOREIGN KEY ("line_id") REFERENCES "chargeback_line"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "chargeback_answer" ADD CONSTRAINT "chargeback_answer_booked_by_id_fkey" FOREIGN KEY ("booked_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "photo" ADD CONSTRAINT "photo_bench_inspection_id_fkey" FOREIGN KEY ("bench_inspection_id") REFERENCES "bench_inspection"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "bench_step_record" ADD CONSTRAINT "bench_step_record_inspection_id_fkey" FOREIGN KEY ("inspection_id") REFERENCES "bench_inspection"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "bench_step_record" ADD CONSTRAINT "bench_step_record_saved_by_id_fkey" FOREIGN KEY ("saved_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "disposition" ADD CONSTRAINT "disposition_return_id_fkey" FOREIGN KEY ("return_id") REFERENCES "return"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "disposition" ADD CONSTRAINT "disposition_decided_by_id_fkey" FOREIGN KEY ("decided_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What was kept so far: inspections were written in one go, and what became of a unit in words of one's own. Such a unit
-- counts as held until somebody decides anew.

UPDATE "bench_inspection" SET "started_at" = "inspected_at";

INSERT INTO "disposition" ("id", "return_id", "kind", "reason", "keep_until", "decided_by_id", "decided_at")
  SELECT DISTINCT ON (r."id") gen_random_uuid(), r."id", 'held_as_evidence', r."disposition", (b."inspected_at" + interval '1 year')::date, b."inspected_by_id", b."inspected_at"
  FROM "return" AS r JOIN "bench_inspection" AS b ON b."return_id" = r."id"
  WHERE r."disposition" IS NOT NULL
  ORDER BY r."id", b."inspected_at" DESC;

ALTER TABLE "return" DROP COLUMN "disposition";

-- Rules that Prisma cannot say.

ALTER TABLE "supplier"
  ADD CONSTRAINT "supplier_answers_within_days" CHECK ("answer_within_days" > 0);

ALTER TABLE "bench_inspection"
  ADD CONSTRAINT "bench_inspection_finished_after_start" CHECK ("inspected_at" >= "started_at");

-- One inspection of a unit is under way at most.
CREATE UNIQUE INDEX "bench_inspection_open_once" ON "bench_inspection" ("return_id") WHERE "inspected_at" IS NULL;

ALTER TABLE "bench_step_record"
  ADD CONSTRAINT "bench_step_record_probabilities_in_range" CHECK ("unit_before" BETWEEN 0 AND 1 AND "unit_after" BETWEEN 0 AND 1);

ALTER TABLE "photo"
  ADD CONSTRAINT "photo_of_a_step_is_the_benchs" CHECK (("bench_inspection_id" IS NULL OR "bench_step" IS NOT NULL) AND ("bench_step" IS NULL OR "taken_by" = 'bench'));

ALTER TABLE "disposition"
  ADD CONSTRAINT "disposition_evidence_has_a_day" CHECK (("kind" = 'held_as_evidence') = ("keep_until" IS NOT NULL));

CREATE UNIQUE INDEX "disposition_stands_once" ON "disposition" ("return_id") WHERE "superseded_at" IS NULL;

ALTER TABLE "chargeback"
  ADD CONSTRAINT "chargeback_currency_is_three_letters" CHECK ("currency" ~ '^[A-Z]{3}$'),
  ADD CONSTRAINT "chargeback_rates_not_negative" CHECK ("bench_minute" >= 0 AND "bench_minute" < 'Infinity' AND "carriage_minor" >= 0),
  ADD CONSTRAINT "chargeback_sent_has_deadline" CHECK (("sent_at" IS NULL) = ("answer_due_on" IS NULL) AND ("state" = 'draft') = ("sent_at" IS NULL)),
  ADD CONSTRAINT "chargeback_closed_has_time" CHECK (("state" = 'closed') = ("closed_at" IS NOT NULL));

ALTER TABLE "chargeback_line"
  ADD CONSTRAINT "chargeback_line_cause_is_a_cause" CHECK ("cause" ~ '^C[0-9]{2,3}$'),
  ADD CONSTRAINT "chargeback_line_amounts_not_negative" CHECK ("remedy_minor" >= 0 AND "carriage_minor" >= 0 AND "bench_minutes" >= 0 AND "bench_minor" >= 0);

ALTER TABLE "chargeback_answer"
  ADD CONSTRAINT "chargeback_answer_not_negative" CHECK ("accepted_minor" >= 0);

CREATE UNIQUE INDEX "chargeback_answer_stands_once" ON "chargeback_answer" ("line_id") WHERE "superseded_at" IS NULL;
