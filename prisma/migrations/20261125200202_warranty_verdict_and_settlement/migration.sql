-- CreateEnum
CREATE TYPE "proposal_state" AS ENUM ('waiting', 'approved', 'sent_back', 'withdrawn');

-- CreateEnum
CREATE TYPE "settlement_kind" AS ENUM ('part', 'repair', 'replacement', 'refund', 'goodwill', 'carriage_out', 'carriage_back', 'core_held', 'core_released', 'core_kept');

-- AlterTable
ALTER TABLE "seller_settings" ADD COLUMN     "carriage_cost" DOUBLE PRECISION NOT NULL DEFAULT 20,
ADD COLUMN     "goodwill_cost" DOUBLE PRECISION NOT NULL DEFAULT 120,
ADD COLUMN     "part_cost" DOUBLE PRECISION NOT NULL DEFAULT 60,
ADD COLUMN     "repair_cost" DOUBLE PRECISION NOT NULL DEFAULT 220,
ADD COLUMN     "second_person_above" INTEGER NOT NULL DEFAULT 500,
ADD COLUMN     "unit_cost" DOUBLE PRECISION NOT NULL DEFAULT 650,
ADD COLUMN     "unit_price" DOUBLE PRECISION NOT NULL DEFAULT 900;

-- AlterTable: what was booked for a remedy is of a kind, borne by the seller alone
ALTER TABLE "settlement" ADD COLUMN     "booking_key" UUID NOT NULL DEFAULT gen_random_uuid(),
ADD COLUMN     "customer_minor" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "held_minor" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "kind" "settlement_kind",
ADD COLUMN     "round" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "seller_minor" INTEGER,
ADD COLUMN     "supplier_minor" INTEGER NOT NULL DEFAULT 0;
UPDATE "settlement" SET "seller_minor" = "amount_minor",
  "kind" = (CASE "remedy" WHEN 'part_sent' THEN 'part' WHEN 'advice' THEN 'goodwill' WHEN 'declined' THEN 'goodwill' ELSE "remedy"::text END)::"settlement_kind";
UPDATE "settlement" AS s SET "round" = counted.round
FROM (SELECT "id", row_number() OVER (PARTITION BY "claim_id", "kind" ORDER BY "booked_at", "id") - 1 AS round FROM "settlement" WHERE "reverses_id" IS NULL) AS counted
WHERE s."id" = counted."id" AND counted.round > 0;
ALTER TABLE "settlement" DROP COLUMN "remedy",
ALTER COLUMN "kind" SET NOT NULL,
ALTER COLUMN "seller_minor" SET NOT NULL;

-- AlterTable
ALTER TABLE "turbo_model" ADD COLUMN     "replacement_cost" DOUBLE PRECISION;

-- AlterTable
ALTER TABLE "verdict" ADD COLUMN     "approved_at" TIMESTAMPTZ(3),
ADD COLUMN     "approved_by_id" UUID,
ADD COLUMN     "core_deposit_minor" INTEGER,
ADD COLUMN     "letter_photos" UUID[] DEFAULT ARRAY[]::UUID[],
ADD COLUMN     "objection" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "pays_carriage" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN     "promised_currency" CHAR(3),
ADD COLUMN     "promised_minor" INTEGER,
ADD COLUMN     "seller_percent" INTEGER NOT NULL DEFAULT 100;

-- CreateTable
CREATE TABLE "verdict_proposal" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "primary_cause" TEXT NOT NULL,
    "contributing_causes" TEXT[],
    "attribution" "attribution" NOT NULL,
    "origin" "origin",
    "way" "verdict_way" NOT NULL,
    "basis" "verdict_basis" NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "remedy" "remedy" NOT NULL,
    "promised_minor" INTEGER,
    "promised_currency" CHAR(3),
    "seller_percent" INTEGER NOT NULL DEFAULT 100,
    "core_deposit_minor" INTEGER,
    "pays_carriage" BOOLEAN NOT NULL DEFAULT false,
    "letter" TEXT NOT NULL,
    "explanation" TEXT NOT NULL DEFAULT '',
    "letter_photos" UUID[] DEFAULT ARRAY[]::UUID[],
    "grounds" TEXT[],
    "ranking_id" UUID,
    "proposed_by_id" UUID NOT NULL,
    "proposed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "state" "proposal_state" NOT NULL DEFAULT 'waiting',
    "looked_at_by_id" UUID,
    "looked_at_at" TIMESTAMPTZ(3),
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "verdict_proposal_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "warranty_terms" (
    "number" INTEGER NOT NULL,
    "valid_from" DATE NOT NULL,
    "document" JSONB NOT NULL,
    "change" TEXT NOT NULL DEFAULT '',
    "drafted_by_id" UUID NOT NULL,
    "drafted_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "in_force_at" TIMESTAMPTZ(3),
    "put_in_force_by_id" UUID,

    CONSTRAINT "warranty_terms_pkey" PRIMARY KEY ("number")
);

-- CreateIndex
CREATE INDEX "verdict_proposal_claim_id_idx" ON "verdict_proposal"("claim_id");

-- CreateIndex
CREATE INDEX "verdict_proposal_ranking_id_idx" ON "verdict_proposal"("ranking_id");

-- CreateIndex
CREATE INDEX "verdict_proposal_proposed_by_id_idx" ON "verdict_proposal"("proposed_by_id");

-- CreateIndex
CREATE INDEX "verdict_proposal_looked_at_by_id_idx" ON "verdict_proposal"("looked_at_by_id");

-- CreateIndex
CREATE INDEX "warranty_terms_drafted_by_id_idx" ON "warranty_terms"("drafted_by_id");

-- CreateIndex
CREATE INDEX "warranty_terms_put_in_force_by_id_idx" ON "warranty_terms"("put_in_force_by_id");

-- CreateIndex
CREATE UNIQUE INDEX "settlement_booking_key_key" ON "settlement"("booking_key");

-- CreateIndex
CREATE INDEX "verdict_approved_by_id_idx" ON "verdict"("approved_by_id");

-- AddForeignKey
ALTER TABLE "verdict" ADD CONSTRAINT "verdict_approved_by_id_fkey" FOREIGN KEY ("approved_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "verdict_proposal" ADD CONSTRAINT "verdict_proposal_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "verdict_proposal" ADD CONSTRAINT "verdict_proposal_ranking_id_fkey" FOREIGN KEY ("ranking_id") REFERENCES "ranking"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "verdict_proposal" ADD CONSTRAINT "verdict_proposal_proposed_by_id_fkey" FOREIGN KEY ("proposed_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "verdict_proposal" ADD CONSTRAINT "verdict_proposal_looked_at_by_id_fkey" FOREIGN KEY ("looked_at_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "warranty_terms" ADD CONSTRAINT "warranty_terms_drafted_by_id_fkey" FOREIGN KEY ("drafted_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "warranty_terms" ADD CONSTRAINT "warranty_terms_put_in_force_by_id_fkey" FOREIGN KEY ("put_in_force_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- Rules of verdicts and money

ALTER TABLE "verdict"
  ADD CONSTRAINT "verdict_approved_by_another" CHECK (("approved_by_id" IS NULL) = ("approved_at" IS NULL) AND "approved_by_id" <> "decided_by_id"),
  ADD CONSTRAINT "verdict_promise_is_sound" CHECK (
    "seller_percent" BETWEEN 0 AND 100 AND "promised_minor" > 0 AND "core_deposit_minor" > 0
    AND ("promised_currency" ~ '^[A-Z]{3}$') IS NOT FALSE
    AND ("promised_currency" IS NOT NULL) = ("promised_minor" IS NOT NULL OR "core_deposit_minor" IS NOT NULL)
  );

ALTER TABLE "verdict_proposal"
  ADD CONSTRAINT "verdict_proposal_promise_is_sound" CHECK (
    "seller_percent" BETWEEN 0 AND 100 AND "promised_minor" > 0 AND "core_deposit_minor" > 0
    AND ("promised_currency" ~ '^[A-Z]{3}$') IS NOT FALSE
    AND ("promised_currency" IS NOT NULL) = ("promised_minor" IS NOT NULL OR "core_deposit_minor" IS NOT NULL)
  ),
  ADD CONSTRAINT "verdict_proposal_has_a_ground" CHECK (cardinality("grounds") > 0 AND "grounds" <@ ARRAY['above_value', 'declined_against_ranking']),
  ADD CONSTRAINT "verdict_proposal_waits_until_looked_at" CHECK (
    ("state" = 'waiting') = ("looked_at_at" IS NULL) AND ("looked_at_at" IS NULL) = ("looked_at_by_id" IS NULL)
  ),
  ADD CONSTRAINT "verdict_proposal_looked_at_by_another" CHECK ("state" NOT IN ('approved', 'sent_back') OR "looked_at_by_id" <> "proposed_by_id"),
  ADD CONSTRAINT "verdict_proposal_sent_back_says_why" CHECK ("state" <> 'sent_back' OR btrim("note") <> '');

CREATE UNIQUE INDEX "verdict_proposal_waits_once" ON "verdict_proposal" ("claim_id") WHERE "state" = 'waiting';

ALTER TABLE "settlement"
  ADD CONSTRAINT "settlement_reversal_is_negative" CHECK (("reverses_id" IS NOT NULL) = ("amount_minor" < 0)),
  ADD CONSTRAINT "settlement_shares_add_up" CHECK (
    CASE "kind"
      WHEN 'core_held' THEN "held_minor" = "amount_minor" AND "seller_minor" = 0 AND "customer_minor" = 0 AND "supplier_minor" = 0
      WHEN 'core_released' THEN "held_minor" = -"amount_minor" AND "seller_minor" = 0 AND "customer_minor" = 0 AND "supplier_minor" = 0
      WHEN 'core_kept' THEN "held_minor" = -"amount_minor" AND "seller_minor" = -"amount_minor" AND "customer_minor" = "amount_minor" AND "supplier_minor" = 0
      ELSE "held_minor" = 0 AND "seller_minor"::bigint + "customer_minor" + "supplier_minor" = "amount_minor"
        AND (least("seller_minor", "customer_minor", "supplier_minor") >= 0 OR greatest("seller_minor", "customer_minor", "supplier_minor") <= 0)
    END
  ),
  ADD CONSTRAINT "settlement_round_not_negative" CHECK ("round" >= 0);

CREATE UNIQUE INDEX "settlement_booked_once" ON "settlement" ("claim_id", "kind", "round") WHERE "reverses_id" IS NULL;

CREATE FUNCTION "refuse_booking_change"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'what is booked is never changed: book a reversal' USING ERRCODE = 'insufficient_privilege';
END
$$;

CREATE TRIGGER "settlement_rows_stay" BEFORE UPDATE ON "settlement" FOR EACH ROW EXECUTE FUNCTION "refuse_booking_change"();

-- Warranty terms

ALTER TABLE "warranty_terms"
  ADD CONSTRAINT "warranty_terms_number_is_positive" CHECK ("number" > 0),
  ADD CONSTRAINT "warranty_terms_in_force_by_somebody" CHECK (("in_force_at" IS NULL) = ("put_in_force_by_id" IS NULL)),
  ADD CONSTRAINT "warranty_terms_in_force_say_what_is_new" CHECK ("in_force_at" IS NULL OR btrim("change") <> '');

CREATE UNIQUE INDEX "warranty_terms_drafted_once" ON "warranty_terms" (("in_force_at" IS NULL)) WHERE "in_force_at" IS NULL;
CREATE UNIQUE INDEX "warranty_terms_from_one_day" ON "warranty_terms" ("valid_from") WHERE "in_force_at" IS NOT NULL;

CREATE FUNCTION "refuse_terms_change"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'terms that were put in force are never changed' USING ERRCODE = 'insufficient_privilege';
END
$$;

CREATE TRIGGER "warranty_terms_in_force_stay" BEFORE UPDATE OR DELETE ON "warranty_terms"
  FOR EACH ROW WHEN (OLD."in_force_at" IS NOT NULL) EXECUTE FUNCTION "refuse_terms_change"();

-- The seller

ALTER TABLE "seller_settings"
  ADD CONSTRAINT "seller_settings_remedies_are_in_bounds" CHECK (
    "second_person_above" BETWEEN 0 AND 1000000
    AND least("unit_cost", "unit_price", "repair_cost", "part_cost", "carriage_cost", "goodwill_cost") >= 0
    AND greatest("unit_cost", "unit_price", "repair_cost", "part_cost", "carriage_cost", "goodwill_cost") <= 100000
  );

ALTER TABLE "turbo_model"
  ADD CONSTRAINT "turbo_model_replacement_cost_is_in_bounds" CHECK ("replacement_cost" > 0 AND "replacement_cost" <= 1000000);
