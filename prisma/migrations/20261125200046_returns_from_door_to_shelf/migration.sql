-- CreateEnum
CREATE TYPE "place_kind" AS ENUM ('door', 'bench', 'shelf', 'quarantine', 'supplier', 'out');

-- CreateEnum
CREATE TYPE "parcel_reason" AS ENUM ('no_number', 'second_parcel', 'wrong_part', 'other_unit');

-- CreateEnum
CREATE TYPE "parcel_condition" AS ENUM ('sound', 'packing_damaged', 'leaking', 'seal_broken');

-- AlterTable
ALTER TABLE "return" ADD COLUMN     "carrier" TEXT,
ADD COLUMN     "reminded_at" TIMESTAMPTZ(3),
ADD COLUMN     "same_unit_at" TIMESTAMPTZ(3),
ADD COLUMN     "same_unit_by_id" UUID,
ADD COLUMN     "same_unit_note" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "sender_name" TEXT,
ADD COLUMN     "sender_place" TEXT,
ADD COLUMN     "sender_postcode" TEXT,
ADD COLUMN     "sender_street" TEXT,
ADD COLUMN     "sent_at" TIMESTAMPTZ(3),
ADD COLUMN     "tracking_number" TEXT;

-- CreateTable
CREATE TABLE "place" (
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" "place_kind" NOT NULL,
    "position" INTEGER NOT NULL,
    "retired_at" TIMESTAMPTZ(3),

    CONSTRAINT "place_pkey" PRIMARY KEY ("code")
);

-- CreateTable
CREATE TABLE "parcel" (
    "id" UUID NOT NULL,
    "number" TEXT NOT NULL,
    "return_id" UUID,
    "reason" "parcel_reason",
    "claim_id" UUID,
    "holds" TEXT NOT NULL DEFAULT '',
    "serial" TEXT,
    "sender" TEXT NOT NULL DEFAULT '',
    "arrived_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "received_by_id" UUID NOT NULL,
    "closed_at" TIMESTAMPTZ(3),
    "closed_by_id" UUID,
    "closing" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "parcel_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "handover" (
    "id" UUID NOT NULL,
    "parcel_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "person_id" UUID NOT NULL,
    "from_code" TEXT,
    "to_code" TEXT NOT NULL,
    "condition" "parcel_condition",
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "handover_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "parcel_number_key" ON "parcel"("number");

-- CreateIndex
CREATE UNIQUE INDEX "parcel_return_id_key" ON "parcel"("return_id");

-- CreateIndex
CREATE INDEX "parcel_claim_id_idx" ON "parcel"("claim_id");

-- CreateIndex
CREATE INDEX "parcel_received_by_id_idx" ON "parcel"("received_by_id");

-- CreateIndex
CREATE INDEX "parcel_closed_by_id_idx" ON "parcel"("closed_by_id");

-- CreateIndex
CREATE INDEX "handover_person_id_idx" ON "handover"("person_id");

-- CreateIndex
CREATE INDEX "handover_from_code_idx" ON "handover"("from_code");

-- CreateIndex
CREATE INDEX "handover_to_code_idx" ON "handover"("to_code");

-- CreateIndex
CREATE UNIQUE INDEX "handover_parcel_id_number_key" ON "handover"("parcel_id", "number");

-- CreateIndex
CREATE INDEX "return_same_unit_by_id_idx" ON "return"("same_unit_by_id");

-- CreateIndex
CREATE INDEX "return_state_expires_at_idx" ON "return"("state", "expires_at");

-- AddForeignKey
ALTER TABLE "return" ADD CONSTRAINT "return_same_unit_by_id_fkey" FOREIGN KEY ("same_unit_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "parcel" ADD CONSTRAINT "parcel_return_id_fkey" FOREIGN KEY ("return_id") REFERENCES "return"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "parcel" ADD CONSTRAINT "parcel_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "parcel" ADD CONSTRAINT "parcel_received_by_id_fkey" FOREIGN KEY ("received_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "parcel" ADD CONSTRAINT "parcel_closed_by_id_fkey" FOREIGN KEY ("closed_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "handover" ADD CONSTRAINT "handover_parcel_id_fkey" FOREIGN KEY ("parcel_id") REFERENCES "parcel"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "handover" ADD CONSTRAINT "handover_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "handover" ADD CONSTRAINT "handover_from_code_fkey" FOREIGN KEY ("from_code") REFERENCES "place"("code") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "handover" ADD CONSTRAINT "handover_to_code_fkey" FOREIGN KEY ("to_code") REFERENCES "place"("code") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Where units are handed over, until the seller says otherwise.

INSERT INTO "place" ("code", "name", "kind", "position") VALUES
  ('DOOR', 'Door', 'door', 1),
  ('BENCH', 'Bench', 'bench', 2),
  ('SHELF-1', 'Shelf 1', 'shelf', 3),
  ('SHELF-2', 'Shelf 2', 'shelf', 4),
  ('SHELF-3', 'Shelf 3', 'shelf', 5),
  ('QUARANTINE', 'Quarantine', 'quarantine', 6),
  ('SUPPLIER', 'Supplier', 'supplier', 7),
  ('OUT', 'Out of the house', 'out', 8);

-- Units that are here already came in at the door, as far as anybody wrote down.

UPDATE "return" SET "sent_at" = "authorised_at" WHERE "state" = 'in_carriage';

INSERT INTO "parcel" ("id", "number", "return_id", "serial", "arrived_at", "received_by_id")
  SELECT gen_random_uuid(), 'P-' || substring("number" FROM 3), "id", "serial_seen", "received_at", "authorised_by_id"
  FROM "return" WHERE "received_at" IS NOT NULL;

INSERT INTO "handover" ("id", "parcel_id", "number", "at", "person_id", "to_code", "note")
  SELECT gen_random_uuid(), "id", 1, "arrived_at", "received_by_id", 'DOOR', 'Before handovers were recorded' FROM "parcel";

-- Rules that Prisma cannot say.

-- A return that has run out goes on when its unit comes after all, so no other begins beside it.
DROP INDEX "return_open_once";
CREATE UNIQUE INDEX "return_open_once" ON "return" ("claim_id") WHERE "state" <> 'dispositioned';

ALTER TABLE "return"
  ADD CONSTRAINT "return_sender_is_whole" CHECK (num_nulls("sender_name", "sender_street", "sender_postcode", "sender_place") IN (0, 4)),
  ADD CONSTRAINT "return_in_carriage_has_time" CHECK ("state" <> 'in_carriage' OR "sent_at" IS NOT NULL),
  ADD CONSTRAINT "return_same_unit_says_how" CHECK (("same_unit_at" IS NULL) = ("same_unit_note" = ''));

ALTER TABLE "place"
  ADD CONSTRAINT "place_code_can_be_scanned" CHECK ("code" ~ '^[A-Z0-9]+(-[A-Z0-9]+)*$');

ALTER TABLE "parcel"
  ADD CONSTRAINT "parcel_is_a_unit_or_says_why" CHECK (("return_id" IS NULL) = ("reason" IS NOT NULL)),
  ADD CONSTRAINT "parcel_closed_says_how" CHECK (("closed_at" IS NULL) = ("closing" = '') AND ("closed_at" IS NULL OR "return_id" IS NULL));

ALTER TABLE "handover"
  ADD CONSTRAINT "handover_counts_from_one" CHECK ("number" >= 1),
  ADD CONSTRAINT "handover_goes_elsewhere" CHECK ("from_code" <> "to_code");
