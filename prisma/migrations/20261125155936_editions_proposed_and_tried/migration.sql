-- CreateEnum
CREATE TYPE "edition_origin" AS ENUM ('shipped', 'by_hand', 'learned');

-- CreateEnum
CREATE TYPE "trial_kind" AS ENUM ('dry_run', 'backtest');

-- AlterTable
ALTER TABLE "knowledge_edition" ADD COLUMN     "basis_number" INTEGER,
ADD COLUMN     "discarded_at" TIMESTAMPTZ(3),
ADD COLUMN     "origin" "edition_origin" NOT NULL DEFAULT 'shipped',
ADD COLUMN     "proposed_by_id" UUID,
ADD COLUMN     "why" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "edition_draft" (
    "id" UUID NOT NULL,
    "basis_number" INTEGER NOT NULL,
    "person_id" UUID NOT NULL,
    "typed" JSONB NOT NULL DEFAULT '{}',
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "edition_draft_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "edition_trial" (
    "id" UUID NOT NULL,
    "edition_number" INTEGER NOT NULL,
    "against_number" INTEGER NOT NULL,
    "kind" "trial_kind" NOT NULL,
    "asked_by_id" UUID,
    "asked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "started_at" TIMESTAMPTZ(3),
    "progress_at" TIMESTAMPTZ(3),
    "finished_at" TIMESTAMPTZ(3),
    "done" INTEGER NOT NULL DEFAULT 0,
    "of" INTEGER NOT NULL DEFAULT 0,
    "result" JSONB,
    "failure" TEXT,

    CONSTRAINT "edition_trial_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "trial_change" (
    "trial_id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "before_cause" TEXT,
    "before_probability" DOUBLE PRECISION,
    "after_cause" TEXT,
    "after_probability" DOUBLE PRECISION,
    "unit_shift" DOUBLE PRECISION NOT NULL,

    CONSTRAINT "trial_change_pkey" PRIMARY KEY ("trial_id","claim_id")
);

-- CreateIndex
CREATE UNIQUE INDEX "edition_draft_person_id_basis_number_key" ON "edition_draft"("person_id", "basis_number");

-- CreateIndex
CREATE INDEX "edition_trial_edition_number_asked_at_idx" ON "edition_trial"("edition_number", "asked_at");

-- CreateIndex
CREATE INDEX "trial_change_claim_id_idx" ON "trial_change"("claim_id");

-- CreateIndex
CREATE INDEX "knowledge_edition_promoted_at_idx" ON "knowledge_edition"("promoted_at");

-- AddForeignKey
ALTER TABLE "knowledge_edition" ADD CONSTRAINT "knowledge_edition_proposed_by_id_fkey" FOREIGN KEY ("proposed_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "knowledge_edition" ADD CONSTRAINT "knowledge_edition_basis_number_fkey" FOREIGN KEY ("basis_number") REFERENCES "knowledge_edition"("number") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "edition_draft" ADD CONSTRAINT "edition_draft_basis_number_fkey" FOREIGN KEY ("basis_number") REFERENCES "knowledge_edition"("number") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "edition_draft" ADD CONSTRAINT "edition_draft_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "edition_trial" ADD CONSTRAINT "edition_trial_edition_number_fkey" FOREIGN KEY ("edition_number") REFERENCES "knowledge_edition"("number") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "edition_trial" ADD CONSTRAINT "edition_trial_against_number_fkey" FOREIGN KEY ("against_number") REFERENCES "knowledge_edition"("number") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "edition_trial" ADD CONSTRAINT "edition_trial_asked_by_id_fkey" FOREIGN KEY ("asked_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "trial_change" ADD CONSTRAINT "trial_change_trial_id_fkey" FOREIGN KEY ("trial_id") REFERENCES "edition_trial"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "trial_change" ADD CONSTRAINT "trial_change_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- What is there so far was shipped; from now on everybody says.
ALTER TABLE "knowledge_edition" ALTER COLUMN "origin" DROP DEFAULT;

ALTER TABLE "knowledge_edition"
  ADD CONSTRAINT "knowledge_edition_follows_its_basis" CHECK ("basis_number" < "number"),
  ADD CONSTRAINT "knowledge_edition_made_here_has_a_basis" CHECK (("origin" = 'shipped') = ("basis_number" IS NULL)),
  ADD CONSTRAINT "knowledge_edition_made_here_says_why" CHECK ("origin" = 'shipped' OR "why" ~ '[^[:space:]]'),
  ADD CONSTRAINT "knowledge_edition_discarded_was_never_in_force" CHECK ("discarded_at" IS NULL OR "promoted_at" IS NULL);

ALTER TABLE "edition_trial"
  ADD CONSTRAINT "edition_trial_is_against_another" CHECK ("against_number" <> "edition_number"),
  ADD CONSTRAINT "edition_trial_progress_is_in_bounds" CHECK ("done" BETWEEN 0 AND "of"),
  ADD CONSTRAINT "edition_trial_finished_has_outcome" CHECK (
    num_nonnulls("result", "failure") = CASE WHEN "finished_at" IS NULL THEN 0 ELSE 1 END
  );

CREATE UNIQUE INDEX "edition_trial_runs_once" ON "edition_trial" ("edition_number", "kind") WHERE "finished_at" IS NULL;

ALTER TABLE "trial_change"
  ADD CONSTRAINT "trial_change_leaders_are_causes" CHECK ("before_cause" ~ '^C[0-9]{2,3}$' AND "after_cause" ~ '^C[0-9]{2,3}$'),
  ADD CONSTRAINT "trial_change_leaders_have_probability" CHECK (
    ("before_cause" IS NULL) = ("before_probability" IS NULL) AND ("after_cause" IS NULL) = ("after_probability" IS NULL)
  ),
  ADD CONSTRAINT "trial_change_probabilities_in_range" CHECK (
    "before_probability" BETWEEN 0 AND 1 AND "after_probability" BETWEEN 0 AND 1 AND "unit_shift" BETWEEN -1 AND 1
  );
