-- CreateEnum
CREATE TYPE "pair_unit" AS ENUM ('large', 'small', 'both');

-- AlterTable
ALTER TABLE "claim" ADD COLUMN     "other_serial" TEXT,
ADD COLUMN     "pair_unit" "pair_unit";

-- CreateTable
CREATE TABLE "photo_mark" (
    "id" UUID NOT NULL,
    "photo_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "x" DOUBLE PRECISION NOT NULL,
    "y" DOUBLE PRECISION NOT NULL,
    "word" TEXT NOT NULL,
    "made_by_id" UUID NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "removed_by_id" UUID,
    "removed_at" TIMESTAMPTZ(3),

    CONSTRAINT "photo_mark_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "desk_note" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "body" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "desk_note_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "linked_claim" (
    "claim_id" UUID NOT NULL,
    "other_id" UUID NOT NULL,
    "why" TEXT NOT NULL DEFAULT '',
    "linked_by_id" UUID NOT NULL,
    "linked_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "linked_claim_pkey" PRIMARY KEY ("claim_id","other_id")
);

-- CreateTable
CREATE TABLE "message_template" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "english" TEXT NOT NULL,
    "german" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 0,
    "changed_by_id" UUID,
    "changed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "message_template_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "photo_mark_made_by_id_idx" ON "photo_mark"("made_by_id");

-- CreateIndex
CREATE INDEX "photo_mark_removed_by_id_idx" ON "photo_mark"("removed_by_id");

-- CreateIndex
CREATE UNIQUE INDEX "photo_mark_photo_id_number_key" ON "photo_mark"("photo_id", "number");

-- CreateIndex
CREATE INDEX "desk_note_claim_id_created_at_idx" ON "desk_note"("claim_id", "created_at");

-- CreateIndex
CREATE INDEX "desk_note_person_id_idx" ON "desk_note"("person_id");

-- CreateIndex
CREATE INDEX "linked_claim_other_id_idx" ON "linked_claim"("other_id");

-- CreateIndex
CREATE INDEX "linked_claim_linked_by_id_idx" ON "linked_claim"("linked_by_id");

-- CreateIndex
CREATE UNIQUE INDEX "message_template_name_key" ON "message_template"("name");

-- CreateIndex
CREATE INDEX "message_template_changed_by_id_idx" ON "message_template"("changed_by_id");

-- AddForeignKey
ALTER TABLE "photo_mark" ADD CONSTRAINT "photo_mark_photo_id_fkey" FOREIGN KEY ("photo_id") REFERENCES "photo"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "photo_mark" ADD CONSTRAINT "photo_mark_made_by_id_fkey" FOREIGN KEY ("made_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "photo_mark" ADD CONSTRAINT "photo_mark_removed_by_id_fkey" FOREIGN KEY ("removed_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "desk_note" ADD CONSTRAINT "desk_note_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "desk_note" ADD CONSTRAINT "desk_note_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "linked_claim" ADD CONSTRAINT "linked_claim_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "linked_claim" ADD CONSTRAINT "linked_claim_other_id_fkey" FOREIGN KEY ("other_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "linked_claim" ADD CONSTRAINT "linked_claim_linked_by_id_fkey" FOREIGN KEY ("linked_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "message_template" ADD CONSTRAINT "message_template_changed_by_id_fkey" FOREIGN KEY ("changed_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- Written by hand.

-- The same serial is looked for by letters and digits alone, as in unit_serial_bare_idx (lib/data/same-unit.ts).
CREATE INDEX "claim_serial_bare_idx" ON "claim" (regexp_replace(upper("serial"), '[^[:alnum:]]', '', 'g'));
CREATE INDEX "claim_other_serial_bare_idx" ON "claim" (regexp_replace(upper("other_serial"), '[^[:alnum:]]', '', 'g'));

-- What the customer's history is found by (lib/data/customer-history.ts).
CREATE INDEX "claim_contact_email_idx" ON "claim" (lower("contact_email"));
CREATE INDEX "claim_order_number_idx" ON "claim" (upper("order_number"));
CREATE INDEX "claim_contact_phone_bare_idx" ON "claim" (regexp_replace("contact_phone", '[^0-9]', '', 'g'));
CREATE INDEX "order_customer_email_lower_idx" ON "order" (lower("customer_email"));

ALTER TABLE "claim" ADD CONSTRAINT "claim_other_serial_is_of_a_pair" CHECK ("other_serial" IS NULL OR "pair_unit" IS NOT NULL);

ALTER TABLE "photo_mark"
  ADD CONSTRAINT "photo_mark_is_on_the_photo" CHECK ("x" BETWEEN 0 AND 1 AND "y" BETWEEN 0 AND 1),
  ADD CONSTRAINT "photo_mark_number_is_positive" CHECK ("number" > 0),
  ADD CONSTRAINT "photo_mark_says_something" CHECK (btrim("word") <> ''),
  ADD CONSTRAINT "photo_mark_removed_by_somebody" CHECK (("removed_at" IS NULL) = ("removed_by_id" IS NULL) AND ("removed_at" IS NULL OR "removed_at" >= "made_at"));

ALTER TABLE "desk_note" ADD CONSTRAINT "desk_note_says_something" CHECK (btrim("body") <> '');

ALTER TABLE "linked_claim" ADD CONSTRAINT "linked_claim_lesser_first" CHECK ("claim_id" < "other_id");

ALTER TABLE "message_template"
  ADD CONSTRAINT "message_template_says_something" CHECK (btrim("name") <> '' AND btrim("english") <> '' AND btrim("german") <> ''),
  ADD CONSTRAINT "message_template_version_not_negative" CHECK ("version" >= 0);

-- What every installation begins with; the desk changes it under Settings.
INSERT INTO "message_template" ("id", "name", "english", "german") VALUES
  (gen_random_uuid(), 'A photo of the drain',
   $$Thank you for telling us so much, {name}. One photo would help most now: the drain hose from the side, along its whole length, with the engine cold and switched off. You can add it on your page. Then we can tell you what to do next.$$,
   $$Vielen Dank für die ausführlichen Angaben, {name}. Am meisten hilft jetzt ein Foto: der Ölrücklauf von der Seite, in ganzer Länge, bei kaltem und abgestelltem Motor. Sie können es auf Ihrer Seite hinzufügen. Danach sagen wir Ihnen, was als Nächstes zu tun ist.$$),
  (gen_random_uuid(), 'A photo of the serial',
   $$To find your unit, {name}, we need its serial. It is on the small plate on the unit. Please wipe the plate clean with the engine cold, and take a photo of it. If it cannot be read any more, just tell us: we then find another way.$$,
   $$Um Ihren Lader zu finden, {name}, brauchen wir seine Seriennummer. Sie steht auf dem kleinen Schild am Lader. Bitte wischen Sie das Schild bei kaltem Motor sauber und fotografieren Sie es. Wenn man sie nicht mehr lesen kann, schreiben Sie uns das einfach: dann finden wir einen anderen Weg.$$),
  (gen_random_uuid(), 'Do not start the engine',
   $$Please leave the engine of your {vehicle} switched off for now. Oil that gets where it does not belong can burn on hot parts, or keep a diesel running after the key is turned. We look at your complaint {reference} before others and write to you by {promised day}. If you have a question before then, call us on {seller phone}.$$,
   $$Bitte lassen Sie den Motor Ihres Fahrzeugs ({vehicle}) vorerst aus. Öl, das dorthin gelangt, wo es nicht hingehört, kann sich an heißen Teilen entzünden oder einen Dieselmotor nach dem Abstellen weiterlaufen lassen. Wir sehen uns Ihre Reklamation {reference} vor anderen an und schreiben Ihnen bis {promised day}. Wenn Sie vorher eine Frage haben, rufen Sie uns an: {seller phone}.$$),
  (gen_random_uuid(), 'How to send the unit in',
   $$Please send us the unit, {name}, with the number {return number} on the parcel. Let it cool, let the oil run out, and pack it in a closed bag before it goes into the box. The address and all the steps are on your page. If anything is unclear, call us on {seller phone}.$$,
   $$Bitte senden Sie uns den Lader, {name}, mit der Nummer {return number} auf dem Paket. Lassen Sie ihn abkühlen und das Öl auslaufen, und packen Sie ihn in einen verschlossenen Beutel, bevor er in den Karton kommt. Die Adresse und alle Schritte finden Sie auf Ihrer Seite. Wenn etwas unklar ist, rufen Sie uns an: {seller phone}.$$),
  (gen_random_uuid(), 'The check we asked for',
   $$We asked you to look at one thing, {name}: {check asked}. It decides what we do next. If you cannot get at it or cannot tell, say so on your page: that helps us too.$$,
   $$Wir haben Sie gebeten, eine Sache anzusehen, {name}: {check asked}. Davon hängt ab, was wir als Nächstes tun. Wenn Sie nicht herankommen oder es nicht erkennen können, schreiben Sie das auf Ihrer Seite: auch das hilft uns.$$),
  (gen_random_uuid(), 'The unit has arrived',
   $$Your parcel with the number {return number} has arrived, {name}. Our bench measures the unit now, and we write to you as soon as we know what it shows. You need not do anything until then.$$,
   $$Ihr Paket mit der Nummer {return number} ist angekommen, {name}. Unsere Werkbank misst den Lader jetzt nach, und wir schreiben Ihnen, sobald wir wissen, was sich zeigt. Bis dahin brauchen Sie nichts zu tun.$$),
  (gen_random_uuid(), 'This is usual',
   $$Good news about your complaint {reference}: a little oil in that place is usual with {kit}, and does no harm. Please look again after your next long drive. If it becomes more, or drips, write to us here and we look at it again.$$,
   $$Gute Nachricht zu Ihrer Reklamation {reference}: ein wenig Öl an dieser Stelle ist üblich ({kit}) und schadet nicht. Bitte sehen Sie nach der nächsten längeren Fahrt noch einmal nach. Wenn es mehr wird oder tropft, schreiben Sie uns hier, und wir sehen es uns noch einmal an.$$),
  (gen_random_uuid(), 'We are still looking',
   $$We are still looking at your complaint {reference} about {kit}, {name}. You will hear from us by {promised day}. You need not do anything until then; if something changes, write to us here.$$,
   $$Wir sehen uns Ihre Reklamation {reference} zu {kit} noch an, {name}. Sie hören bis {promised day} von uns. Bis dahin brauchen Sie nichts zu tun; wenn sich etwas ändert, schreiben Sie uns hier.$$);
