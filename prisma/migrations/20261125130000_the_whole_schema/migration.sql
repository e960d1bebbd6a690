-- CreateSchema
CREATE SCHEMA IF NOT EXISTS "public";

-- CreateEnum
CREATE TYPE "bearing" AS ENUM ('journal', 'ball');

-- CreateEnum
CREATE TYPE "staging" AS ENUM ('single', 'low_pressure', 'high_pressure');

-- CreateEnum
CREATE TYPE "fuel" AS ENUM ('diesel', 'petrol');

-- CreateEnum
CREATE TYPE "claim_stage" AS ENUM ('draft', 'filed', 'in_review', 'awaiting_checks', 'awaiting_the_unit', 'decided', 'settled', 'cleared', 'withdrawn', 'lapsed', 'merged');

-- CreateEnum
CREATE TYPE "observer" AS ENUM ('customer', 'technician', 'bench');

-- CreateEnum
CREATE TYPE "claim_key_kind" AS ENUM ('browser', 'link');

-- CreateEnum
CREATE TYPE "check_request_state" AS ENUM ('open', 'answered', 'withdrawn');

-- CreateEnum
CREATE TYPE "message_from" AS ENUM ('customer', 'staff');

-- CreateEnum
CREATE TYPE "attribution" AS ENUM ('fit', 'kit', 'engine', 'unit', 'normal', 'transit', 'elsewhere');

-- CreateEnum
CREATE TYPE "origin" AS ENUM ('fitter', 'kit', 'not_known');

-- CreateEnum
CREATE TYPE "remedy" AS ENUM ('advice', 'part_sent', 'repair', 'replacement', 'refund', 'goodwill', 'declined');

-- CreateEnum
CREATE TYPE "verdict_way" AS ENUM ('confirmed', 'overruled');

-- CreateEnum
CREATE TYPE "verdict_basis" AS ENUM ('customer_word', 'photo', 'technician', 'bench');

-- CreateEnum
CREATE TYPE "return_state" AS ENUM ('authorised', 'in_carriage', 'received', 'on_the_bench', 'dispositioned', 'expired');

-- CreateEnum
CREATE TYPE "role" AS ENUM ('support', 'bench', 'product', 'admin');

-- CreateEnum
CREATE TYPE "actor_kind" AS ENUM ('customer', 'staff', 'system');

-- CreateEnum
CREATE TYPE "mail_state" AS ENUM ('queued', 'sent', 'failed');

-- CreateTable
CREATE TABLE "turbo_model" (
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "bearing" "bearing" NOT NULL,
    "staging" "staging" NOT NULL DEFAULT 'single',
    "axial_play_min_mm" DOUBLE PRECISION NOT NULL,
    "axial_play_max_mm" DOUBLE PRECISION NOT NULL,
    "radial_play_max_mm" DOUBLE PRECISION NOT NULL,
    "drain_bore_mm" DOUBLE PRECISION NOT NULL,

    CONSTRAINT "turbo_model_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "kit" (
    "id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "turbo_model_id" UUID,
    "retired_on" DATE,

    CONSTRAINT "kit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "kit_revision" (
    "id" UUID NOT NULL,
    "kit_id" UUID NOT NULL,
    "revision" TEXT NOT NULL,
    "introduced_on" DATE NOT NULL,
    "change" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "kit_revision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "vehicle" (
    "id" UUID NOT NULL,
    "make" TEXT NOT NULL,
    "model" TEXT NOT NULL,
    "engine" TEXT NOT NULL,
    "fuel" "fuel" NOT NULL,
    "year_from" INTEGER NOT NULL,
    "year_to" INTEGER,

    CONSTRAINT "vehicle_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "fitment" (
    "kit_id" UUID NOT NULL,
    "vehicle_id" UUID NOT NULL,

    CONSTRAINT "fitment_pkey" PRIMARY KEY ("kit_id","vehicle_id")
);

-- CreateTable
CREATE TABLE "fitter" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "place" TEXT NOT NULL,

    CONSTRAINT "fitter_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "claim" (
    "id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "filing_key" UUID NOT NULL,
    "stage" "claim_stage" NOT NULL DEFAULT 'draft',
    "version" INTEGER NOT NULL DEFAULT 0,
    "answers" JSONB NOT NULL DEFAULT '{}',
    "filed_by" "observer",
    "contact_name" TEXT,
    "contact_email" TEXT,
    "contact_phone" TEXT,
    "country" CHAR(2),
    "description" TEXT NOT NULL DEFAULT '',
    "order_number" TEXT,
    "serial" TEXT,
    "shipment_id" UUID,
    "unit_id" UUID,
    "kit_revision_id" UUID,
    "vehicle_id" UUID,
    "vehicle_words" TEXT,
    "fitter_id" UUID,
    "fitted_on" DATE,
    "hours_run" DOUBLE PRECISION,
    "distance_km" DOUBLE PRECISION,
    "leader_cause" TEXT,
    "leader_probability" DOUBLE PRECISION,
    "unit_probability" DOUBLE PRECISION,
    "stops_engine" BOOLEAN NOT NULL DEFAULT false,
    "assigned_to_id" UUID,
    "merged_into_id" UUID,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,
    "filed_at" TIMESTAMPTZ(3),
    "promised_at" TIMESTAMPTZ(3),
    "first_answer_at" TIMESTAMPTZ(3),
    "decided_at" TIMESTAMPTZ(3),
    "settled_at" TIMESTAMPTZ(3),

    CONSTRAINT "claim_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "claim_key" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "kind" "claim_key_kind" NOT NULL,
    "hash" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),

    CONSTRAINT "claim_key_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "finding" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "observer" "observer" NOT NULL,
    "answer" TEXT,
    "measured" DOUBLE PRECISION,
    "typed_value" TEXT,
    "typed_unit" TEXT,
    "note" TEXT NOT NULL DEFAULT '',
    "person_id" UUID,
    "observed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "replaced_at" TIMESTAMPTZ(3),
    "bench_inspection_id" UUID,

    CONSTRAINT "finding_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "photo" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "subject" TEXT NOT NULL,
    "storage_key" TEXT NOT NULL,
    "width" INTEGER NOT NULL,
    "height" INTEGER NOT NULL,
    "bytes" INTEGER NOT NULL,
    "sha256" CHAR(64) NOT NULL,
    "taken_by" "observer" NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "photo_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ranking" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "edition_number" INTEGER NOT NULL,
    "observations" JSONB NOT NULL,
    "result" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "ranking_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "check_request" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "finding_code" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "state" "check_request_state" NOT NULL DEFAULT 'open',
    "asked_by_id" UUID NOT NULL,
    "asked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "closed_at" TIMESTAMPTZ(3),
    "finding_id" UUID,

    CONSTRAINT "check_request_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "message" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "from" "message_from" NOT NULL,
    "person_id" UUID,
    "body" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "message_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "verdict" (
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
    "letter" TEXT NOT NULL,
    "ranking_id" UUID,
    "decided_by_id" UUID NOT NULL,
    "decided_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "superseded_at" TIMESTAMPTZ(3),

    CONSTRAINT "verdict_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "return" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "number" TEXT NOT NULL,
    "state" "return_state" NOT NULL DEFAULT 'authorised',
    "authorised_by_id" UUID NOT NULL,
    "authorised_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "received_at" TIMESTAMPTZ(3),
    "serial_seen" TEXT,
    "disposition" TEXT,

    CONSTRAINT "return_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "bench_inspection" (
    "id" UUID NOT NULL,
    "return_id" UUID NOT NULL,
    "inspected_by_id" UUID NOT NULL,
    "inspected_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "bench_inspection_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "settlement" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "remedy" "remedy" NOT NULL,
    "amount_minor" INTEGER NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "booked_by_id" UUID NOT NULL,
    "booked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "reverses_id" UUID,

    CONSTRAINT "settlement_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "person" (
    "id" UUID NOT NULL,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "role" "role" NOT NULL,
    "password_hash" TEXT,
    "disabled_at" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "person_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "staff_session" (
    "id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "staff_session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "seller_settings" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "return_address" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "phone" TEXT NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "time_zone" TEXT NOT NULL,
    "working_days" INTEGER[],
    "opens_at" TEXT NOT NULL,
    "closes_at" TEXT NOT NULL,
    "promised_answer_hours" INTEGER NOT NULL,
    "return_within_days" INTEGER NOT NULL,

    CONSTRAINT "seller_settings_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "knowledge_edition" (
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "document" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "promoted_at" TIMESTAMPTZ(3),

    CONSTRAINT "knowledge_edition_pkey" PRIMARY KEY ("number")
);

-- CreateTable
CREATE TABLE "audit_entry" (
    "id" BIGSERIAL NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "actor_kind" "actor_kind" NOT NULL,
    "person_id" UUID,
    "claim_id" UUID,
    "action" TEXT NOT NULL,
    "detail" JSONB NOT NULL DEFAULT '{}',

    CONSTRAINT "audit_entry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "outgoing_mail" (
    "id" UUID NOT NULL,
    "once_key" TEXT NOT NULL,
    "claim_id" UUID,
    "to_name" TEXT NOT NULL,
    "to_address" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "html" TEXT NOT NULL,
    "state" "mail_state" NOT NULL DEFAULT 'queued',
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "last_error" TEXT,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sent_at" TIMESTAMPTZ(3),

    CONSTRAINT "outgoing_mail_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "rate_limit" (
    "key" TEXT NOT NULL,
    "points" INTEGER NOT NULL DEFAULT 0,
    "expire" BIGINT,

    CONSTRAINT "rate_limit_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "order" (
    "id" UUID NOT NULL,
    "number" TEXT NOT NULL,
    "customer_email" TEXT NOT NULL,
    "customer_name" TEXT NOT NULL,
    "country" CHAR(2) NOT NULL,
    "placed_on" DATE NOT NULL,

    CONSTRAINT "order_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "unit" (
    "id" UUID NOT NULL,
    "serial" TEXT NOT NULL,
    "batch" TEXT NOT NULL,
    "turbo_model_id" UUID NOT NULL,

    CONSTRAINT "unit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "shipment" (
    "id" UUID NOT NULL,
    "order_id" UUID NOT NULL,
    "kit_revision_id" UUID NOT NULL,
    "unit_id" UUID,
    "vehicle_id" UUID,
    "shipped_on" DATE NOT NULL,

    CONSTRAINT "shipment_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "turbo_model_code_key" ON "turbo_model"("code");

-- CreateIndex
CREATE UNIQUE INDEX "kit_code_key" ON "kit"("code");

-- CreateIndex
CREATE INDEX "kit_turbo_model_id_idx" ON "kit"("turbo_model_id");

-- CreateIndex
CREATE UNIQUE INDEX "kit_revision_kit_id_revision_key" ON "kit_revision"("kit_id", "revision");

-- CreateIndex
CREATE UNIQUE INDEX "vehicle_make_model_engine_year_from_key" ON "vehicle"("make", "model", "engine", "year_from");

-- CreateIndex
CREATE INDEX "fitment_vehicle_id_idx" ON "fitment"("vehicle_id");

-- CreateIndex
CREATE UNIQUE INDEX "fitter_name_place_key" ON "fitter"("name", "place");

-- CreateIndex
CREATE UNIQUE INDEX "claim_reference_key" ON "claim"("reference");

-- CreateIndex
CREATE UNIQUE INDEX "claim_filing_key_key" ON "claim"("filing_key");

-- CreateIndex
CREATE INDEX "claim_stage_promised_at_idx" ON "claim"("stage", "promised_at");

-- CreateIndex
CREATE INDEX "claim_kit_revision_id_vehicle_id_filed_at_idx" ON "claim"("kit_revision_id", "vehicle_id", "filed_at");

-- CreateIndex
CREATE INDEX "claim_vehicle_id_idx" ON "claim"("vehicle_id");

-- CreateIndex
CREATE INDEX "claim_unit_id_idx" ON "claim"("unit_id");

-- CreateIndex
CREATE INDEX "claim_shipment_id_idx" ON "claim"("shipment_id");

-- CreateIndex
CREATE INDEX "claim_fitter_id_idx" ON "claim"("fitter_id");

-- CreateIndex
CREATE INDEX "claim_assigned_to_id_idx" ON "claim"("assigned_to_id");

-- CreateIndex
CREATE INDEX "claim_merged_into_id_idx" ON "claim"("merged_into_id");

-- CreateIndex
CREATE INDEX "claim_filed_at_idx" ON "claim"("filed_at");

-- CreateIndex
CREATE UNIQUE INDEX "claim_key_hash_key" ON "claim_key"("hash");

-- CreateIndex
CREATE INDEX "claim_key_claim_id_idx" ON "claim_key"("claim_id");

-- CreateIndex
CREATE INDEX "claim_key_expires_at_idx" ON "claim_key"("expires_at");

-- CreateIndex
CREATE INDEX "finding_claim_id_idx" ON "finding"("claim_id");

-- CreateIndex
CREATE INDEX "finding_person_id_idx" ON "finding"("person_id");

-- CreateIndex
CREATE INDEX "finding_bench_inspection_id_idx" ON "finding"("bench_inspection_id");

-- CreateIndex
CREATE UNIQUE INDEX "photo_storage_key_key" ON "photo"("storage_key");

-- CreateIndex
CREATE UNIQUE INDEX "photo_claim_id_sha256_key" ON "photo"("claim_id", "sha256");

-- CreateIndex
CREATE INDEX "ranking_claim_id_created_at_idx" ON "ranking"("claim_id", "created_at");

-- CreateIndex
CREATE INDEX "ranking_edition_number_idx" ON "ranking"("edition_number");

-- CreateIndex
CREATE UNIQUE INDEX "check_request_finding_id_key" ON "check_request"("finding_id");

-- CreateIndex
CREATE INDEX "check_request_claim_id_idx" ON "check_request"("claim_id");

-- CreateIndex
CREATE INDEX "check_request_asked_by_id_idx" ON "check_request"("asked_by_id");

-- CreateIndex
CREATE INDEX "message_claim_id_created_at_idx" ON "message"("claim_id", "created_at");

-- CreateIndex
CREATE INDEX "message_person_id_idx" ON "message"("person_id");

-- CreateIndex
CREATE INDEX "verdict_claim_id_idx" ON "verdict"("claim_id");

-- CreateIndex
CREATE INDEX "verdict_ranking_id_idx" ON "verdict"("ranking_id");

-- CreateIndex
CREATE INDEX "verdict_decided_by_id_idx" ON "verdict"("decided_by_id");

-- CreateIndex
CREATE INDEX "verdict_decided_at_idx" ON "verdict"("decided_at");

-- CreateIndex
CREATE UNIQUE INDEX "return_number_key" ON "return"("number");

-- CreateIndex
CREATE INDEX "return_claim_id_idx" ON "return"("claim_id");

-- CreateIndex
CREATE INDEX "return_authorised_by_id_idx" ON "return"("authorised_by_id");

-- CreateIndex
CREATE INDEX "bench_inspection_return_id_idx" ON "bench_inspection"("return_id");

-- CreateIndex
CREATE INDEX "bench_inspection_inspected_by_id_idx" ON "bench_inspection"("inspected_by_id");

-- CreateIndex
CREATE UNIQUE INDEX "settlement_reverses_id_key" ON "settlement"("reverses_id");

-- CreateIndex
CREATE INDEX "settlement_claim_id_idx" ON "settlement"("claim_id");

-- CreateIndex
CREATE INDEX "settlement_booked_by_id_idx" ON "settlement"("booked_by_id");

-- CreateIndex
CREATE UNIQUE INDEX "person_email_key" ON "person"("email");

-- CreateIndex
CREATE UNIQUE INDEX "staff_session_token_hash_key" ON "staff_session"("token_hash");

-- CreateIndex
CREATE INDEX "staff_session_person_id_idx" ON "staff_session"("person_id");

-- CreateIndex
CREATE INDEX "staff_session_expires_at_idx" ON "staff_session"("expires_at");

-- CreateIndex
CREATE INDEX "audit_entry_claim_id_at_idx" ON "audit_entry"("claim_id", "at");

-- CreateIndex
CREATE INDEX "audit_entry_person_id_idx" ON "audit_entry"("person_id");

-- CreateIndex
CREATE INDEX "audit_entry_at_idx" ON "audit_entry"("at");

-- CreateIndex
CREATE UNIQUE INDEX "outgoing_mail_once_key_key" ON "outgoing_mail"("once_key");

-- CreateIndex
CREATE INDEX "outgoing_mail_claim_id_idx" ON "outgoing_mail"("claim_id");

-- CreateIndex
CREATE INDEX "outgoing_mail_state_created_at_idx" ON "outgoing_mail"("state", "created_at");

-- CreateIndex
CREATE UNIQUE INDEX "order_number_key" ON "order"("number");

-- CreateIndex
CREATE INDEX "order_customer_email_idx" ON "order"("customer_email");

-- CreateIndex
CREATE UNIQUE INDEX "unit_serial_key" ON "unit"("serial");

-- CreateIndex
CREATE INDEX "unit_batch_idx" ON "unit"("batch");

-- CreateIndex
CREATE INDEX "unit_turbo_model_id_idx" ON "unit"("turbo_model_id");

-- CreateIndex
CREATE UNIQUE INDEX "shipment_unit_id_key" ON "shipment"("unit_id");

-- CreateIndex
CREATE INDEX "shipment_order_id_idx" ON "shipment"("order_id");

-- CreateIndex
CREATE INDEX "shipment_kit_revision_id_vehicle_id_shipped_on_idx" ON "shipment"("kit_revision_id", "vehicle_id", "shipped_on");

-- CreateIndex
CREATE INDEX "shipment_vehicle_id_idx" ON "shipment"("vehicle_id");

-- CreateIndex
CREATE INDEX "shipment_shipped_on_idx" ON "shipment"("shipped_on");

-- AddForeignKey
ALTER TABLE "kit" ADD CONSTRAINT "kit_turbo_model_id_fkey" FOREIGN KEY ("turbo_model_id") REFERENCES "turbo_model"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "kit_revision" ADD CONSTRAINT "kit_revision_kit_id_fkey" FOREIGN KEY ("kit_id") REFERENCES "kit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "fitment" ADD CONSTRAINT "fitment_kit_id_fkey" FOREIGN KEY ("kit_id") REFERENCES "kit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "fitment" ADD CONSTRAINT "fitment_vehicle_id_fkey" FOREIGN KEY ("vehicle_id") REFERENCES "vehicle"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_shipment_id_fkey" FOREIGN KEY ("shipment_id") REFERENCES "shipment"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_kit_revision_id_fkey" FOREIGN KEY ("kit_revision_id") REFERENCES "kit_revision"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_vehicle_id_fkey" FOREIGN KEY ("vehicle_id") REFERENCES "vehicle"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_fitter_id_fkey" FOREIGN KEY ("fitter_id") REFERENCES "fitter"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_assigned_to_id_fkey" FOREIGN KEY ("assigned_to_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_merged_into_id_fkey" FOREIGN KEY ("merged_into_id") REFERENCES "claim"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim_key" ADD CONSTRAINT "claim_key_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding" ADD CONSTRAINT "finding_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding" ADD CONSTRAINT "finding_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding" ADD CONSTRAINT "finding_bench_inspection_id_fkey" FOREIGN KEY ("bench_inspection_id") REFERENCES "bench_inspection"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "photo" ADD CONSTRAINT "photo_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ranking" ADD CONSTRAINT "ranking_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ranking" ADD CONSTRAINT "ranking_edition_number_fkey" FOREIGN KEY ("edition_number") REFERENCES "knowledge_edition"("number") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "check_request" ADD CONSTRAINT "check_request_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "check_request" ADD CONSTRAINT "check_request_asked_by_id_fkey" FOREIGN KEY ("asked_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "check_request" ADD CONSTRAINT "check_request_finding_id_fkey" FOREIGN KEY ("finding_id") REFERENCES "finding"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "message" ADD CONSTRAINT "message_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "message" ADD CONSTRAINT "message_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "verdict" ADD CONSTRAINT "verdict_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "verdict" ADD CONSTRAINT "verdict_ranking_id_fkey" FOREIGN KEY ("ranking_id") REFERENCES "ranking"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "verdict" ADD CONSTRAINT "verdict_decided_by_id_fkey" FOREIGN KEY ("decided_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "return" ADD CONSTRAINT "return_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "return" ADD CONSTRAINT "return_authorised_by_id_fkey" FOREIGN KEY ("authorised_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "bench_inspection" ADD CONSTRAINT "bench_inspection_return_id_fkey" FOREIGN KEY ("return_id") REFERENCES "return"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "bench_inspection" ADD CONSTRAINT "bench_inspection_inspected_by_id_fkey" FOREIGN KEY ("inspected_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement" ADD CONSTRAINT "settlement_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement" ADD CONSTRAINT "settlement_booked_by_id_fkey" FOREIGN KEY ("booked_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement" ADD CONSTRAINT "settlement_reverses_id_fkey" FOREIGN KEY ("reverses_id") REFERENCES "settlement"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "staff_session" ADD CONSTRAINT "staff_session_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "audit_entry" ADD CONSTRAINT "audit_entry_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "audit_entry" ADD CONSTRAINT "audit_entry_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outgoing_mail" ADD CONSTRAINT "outgoing_mail_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "unit" ADD CONSTRAINT "unit_turbo_model_id_fkey" FOREIGN KEY ("turbo_model_id") REFERENCES "turbo_model"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "shipment" ADD CONSTRAINT "shipment_order_id_fkey" FOREIGN KEY ("order_id") REFERENCES "order"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "shipment" ADD CONSTRAINT "shipment_kit_revision_id_fkey" FOREIGN KEY ("kit_revision_id") REFERENCES "kit_revision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "shipment" ADD CONSTRAINT "shipment_unit_id_fkey" FOREIGN KEY ("unit_id") REFERENCES "unit"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "shipment" ADD CONSTRAINT "shipment_vehicle_id_fkey" FOREIGN KEY ("vehicle_id") REFERENCES "vehicle"("id") ON DELETE SET NULL ON UPDATE CASCADE;
