-- AlterTable
ALTER TABLE "claim" ADD COLUMN     "desk_since" TIMESTAMPTZ(3),
ADD COLUMN     "lapse_held_at" TIMESTAMPTZ(3),
ADD COLUMN     "lapses_at" TIMESTAMPTZ(3),
ADD COLUMN     "look_value" DOUBLE PRECISION,
ADD COLUMN     "quiet_from" TIMESTAMPTZ(3),
ADD COLUMN     "quiet_steps" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "taken_down_by_id" UUID,
ADD COLUMN     "wrote_at" TIMESTAMPTZ(3);

-- AlterTable
ALTER TABLE "outgoing_mail" ADD COLUMN     "bounced_at" TIMESTAMPTZ(3),
ADD COLUMN     "reached_at" TIMESTAMPTZ(3);

-- AlterTable
ALTER TABLE "seller_settings" ADD COLUMN     "first_reminder_days" INTEGER NOT NULL DEFAULT 4,
ADD COLUMN     "lapse_days" INTEGER NOT NULL DEFAULT 14,
ADD COLUMN     "lapse_notice_days" INTEGER NOT NULL DEFAULT 10,
ADD COLUMN     "second_reminder_days" INTEGER NOT NULL DEFAULT 8;

-- CreateTable
CREATE TABLE "claim_presence" (
    "claim_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "seen_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "claim_presence_pkey" PRIMARY KEY ("claim_id","person_id")
);

-- CreateTable
CREATE TABLE "saved_filter" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "query" TEXT NOT NULL,
    "is_start" BOOLEAN NOT NULL DEFAULT false,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "saved_filter_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "claim_presence_person_id_idx" ON "claim_presence"("person_id");

-- CreateIndex
CREATE INDEX "claim_presence_seen_at_idx" ON "claim_presence"("seen_at");

-- CreateIndex
CREATE UNIQUE INDEX "saved_filter_person_id_name_key" ON "saved_filter"("person_id", "name");

-- CreateIndex
CREATE INDEX "claim_taken_down_by_id_idx" ON "claim"("taken_down_by_id");

-- AddForeignKey
ALTER TABLE "claim" ADD CONSTRAINT "claim_taken_down_by_id_fkey" FOREIGN KEY ("taken_down_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim_presence" ADD CONSTRAINT "claim_presence_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "claim_presence" ADD CONSTRAINT "claim_presence_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "saved_filter" ADD CONSTRAINT "saved_filter_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- What has come to the desk already: filed, or back since.
UPDATE "claim" AS c SET "desk_since" = coalesce(
  (SELECT max(a."at") FROM "audit_entry" AS a WHERE a."claim_id" = c."id" AND a."action" IN ('answer_checks', 'inspect_unit', 'return_expired', 'appeal')),
  c."filed_at")
WHERE c."stage" <> 'draft';

-- The first message of a customer that nobody has answered; the acts that answer are those of `isAnswer`.

CREATE FUNCTION "first_unanswered_message"("of_claim" uuid) RETURNS timestamptz
LANGUAGE sql STABLE AS $$
  SELECT min(m."created_at") FROM "message" AS m
  WHERE m."claim_id" = "of_claim" AND m."from" = 'customer' AND NOT EXISTS (
    SELECT FROM "audit_entry" AS a
    WHERE a."claim_id" = m."claim_id" AND a."at" >= m."created_at"
      AND a."action" IN ('write_message', 'ask_for_check', 'authorise_return', 'decide', 'need_no_answer', 'clear', 'withdraw')
      AND NOT (a."action" = 'write_message' AND a."actor_kind" = 'customer')
  )
$$;

UPDATE "claim" SET "wrote_at" = "first_unanswered_message"("id") WHERE "id" IN (SELECT "claim_id" FROM "message" WHERE "from" = 'customer');

CREATE FUNCTION "note_what_waits"() RETURNS trigger
LANGUAGE plpgsql AS $$
DECLARE
  "of_claim" uuid := CASE TG_OP WHEN 'DELETE' THEN OLD."claim_id" ELSE NEW."claim_id" END;
  "since" timestamptz := "first_unanswered_message"("of_claim");
BEGIN
  UPDATE "claim" SET "wrote_at" = "since" WHERE "id" = "of_claim" AND "wrote_at" IS DISTINCT FROM "since";
  RETURN NULL;
END
$$;

CREATE TRIGGER "message_waits" AFTER INSERT ON "message" FOR EACH ROW WHEN (NEW."from" = 'customer') EXECUTE FUNCTION "note_what_waits"();
CREATE TRIGGER "removed_message_waits_no_more" AFTER DELETE ON "message" FOR EACH ROW WHEN (OLD."from" = 'customer') EXECUTE FUNCTION "note_what_waits"();
CREATE TRIGGER "act_answers_messages" AFTER INSERT ON "audit_entry" FOR EACH ROW
  WHEN (NEW."claim_id" IS NOT NULL AND NEW."action" IN ('write_message', 'ask_for_check', 'authorise_return', 'decide', 'need_no_answer', 'clear', 'withdraw'))
  EXECUTE FUNCTION "note_what_waits"();

CREATE INDEX "claim_wrote_at_waits" ON "claim" ("wrote_at") WHERE "wrote_at" IS NOT NULL;

-- A caller need not have an e-mail address; one that we can neither write to nor call cannot be filed for.
ALTER TABLE "claim" DROP CONSTRAINT "claim_filed_is_complete";
ALTER TABLE "claim"
  ADD CONSTRAINT "claim_filed_is_complete" CHECK (
    "stage" = 'draft'
    OR ("filed_by" IS NOT NULL AND "contact_name" IS NOT NULL AND ("contact_email" IS NOT NULL OR ("taken_down_by_id" IS NOT NULL AND "contact_phone" IS NOT NULL)) AND "filed_at" IS NOT NULL AND "promised_at" IS NOT NULL)
  ),
  ADD CONSTRAINT "claim_look_value_not_negative" CHECK ("look_value" >= 0 AND "look_value" < 'Infinity'),
  ADD CONSTRAINT "claim_quiet_steps_in_range" CHECK ("quiet_steps" BETWEEN 0 AND 3),
  ADD CONSTRAINT "claim_lapses_after_notice" CHECK ("lapses_at" IS NULL OR "quiet_steps" = 3);

ALTER TABLE "saved_filter"
  ADD CONSTRAINT "saved_filter_has_a_name" CHECK (btrim("name") <> '');
CREATE UNIQUE INDEX "saved_filter_starts_once" ON "saved_filter" ("person_id") WHERE "is_start";

ALTER TABLE "seller_settings"
  ADD CONSTRAINT "seller_settings_reminders_are_in_order" CHECK (0 < "first_reminder_days" AND "first_reminder_days" < "second_reminder_days" AND "second_reminder_days" < "lapse_notice_days" AND "lapse_notice_days" < "lapse_days");

ALTER TABLE "outgoing_mail"
  ADD CONSTRAINT "outgoing_mail_bounced_has_failed" CHECK ("bounced_at" IS NULL OR "state" = 'failed'),
  ADD CONSTRAINT "outgoing_mail_reached_after_bounce" CHECK ("reached_at" IS NULL OR "reached_at" >= "bounced_at");
CREATE INDEX "outgoing_mail_bounced" ON "outgoing_mail" ("claim_id") WHERE "bounced_at" IS NOT NULL AND "reached_at" IS NULL;

-- Search: words by their beginning in any language, numbers and names by any part of them.

CREATE EXTENSION IF NOT EXISTS pg_trgm WITH SCHEMA public;
CREATE EXTENSION IF NOT EXISTS unaccent WITH SCHEMA public;

-- Lower case and without accents. Named as never changing, which holds while nobody changes the rules of unaccent.
CREATE FUNCTION "plain_words"("words" text) RETURNS text
LANGUAGE sql IMMUTABLE STRICT PARALLEL SAFE AS $$ SELECT lower(public.unaccent('public.unaccent'::regdictionary, "words")) $$;

CREATE INDEX "claim_description_words" ON "claim" USING gin (to_tsvector('simple', "plain_words"("description")));
CREATE INDEX "message_words" ON "message" USING gin (to_tsvector('simple', "plain_words"("body")));
CREATE INDEX "desk_note_words" ON "desk_note" USING gin (to_tsvector('simple', "plain_words"("body")));
CREATE INDEX "claim_numbers" ON "claim" USING gin ("plain_words"("reference" || ' ' || coalesce("serial", '') || ' ' || coalesce("other_serial", '') || ' ' || coalesce("order_number", '')) gin_trgm_ops);
CREATE INDEX "claim_names" ON "claim" USING gin ("plain_words"(coalesce("contact_name", '') || ' ' || coalesce("contact_email", '')) gin_trgm_ops);
CREATE INDEX "claim_telephones" ON "claim" USING gin (regexp_replace(coalesce("contact_phone", ''), '\D', '', 'g') gin_trgm_ops);
CREATE INDEX "unit_serial_parts" ON "unit" USING gin ("plain_words"("serial") gin_trgm_ops);
CREATE INDEX "return_number_parts" ON "return" USING gin ("plain_words"("number") gin_trgm_ops);
