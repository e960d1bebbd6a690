-- What the Prisma schema cannot say: ranges, formats, what belongs together, what may stand only once, and an audit
-- trail that only grows. Each rule is named by what it asks for, so that a refused row says what is wrong with it.
-- Valid on PostgreSQL 15 and later.

-- Catalogue

ALTER TABLE "turbo_model"
  ADD CONSTRAINT "turbo_model_axial_play_is_a_range" CHECK ("axial_play_min_mm" >= 0 AND "axial_play_min_mm" < "axial_play_max_mm"),
  ADD CONSTRAINT "turbo_model_radial_play_is_positive" CHECK ("radial_play_max_mm" > 0),
  ADD CONSTRAINT "turbo_model_drain_bore_is_positive" CHECK ("drain_bore_mm" > 0);

ALTER TABLE "vehicle"
  ADD CONSTRAINT "vehicle_years_are_in_order" CHECK ("year_from" BETWEEN 1900 AND 2100 AND ("year_to" IS NULL OR "year_to" BETWEEN "year_from" AND 2100));

-- Orders

ALTER TABLE "order"
  ADD CONSTRAINT "order_country_is_two_letters" CHECK ("country" ~ '^[A-Z]{2}$');

-- Claims

ALTER TABLE "claim"
  ADD CONSTRAINT "claim_reference_is_well_formed" CHECK ("reference" ~ '^[2-9A-HJKMNP-Z]{4}-[2-9A-HJKMNP-Z]{3}-[2-9A-HJKMNP-Z]{3}$'),
  ADD CONSTRAINT "claim_filed_is_complete" CHECK (
    "stage" = 'draft'
    OR ("filed_by" IS NOT NULL AND "contact_name" IS NOT NULL AND "contact_email" IS NOT NULL AND "filed_at" IS NOT NULL AND "promised_at" IS NOT NULL)
  ),
  ADD CONSTRAINT "claim_draft_is_not_filed" CHECK ("stage" <> 'draft' OR "filed_at" IS NULL),
  ADD CONSTRAINT "claim_promise_follows_filing" CHECK ("promised_at" >= "filed_at"),
  ADD CONSTRAINT "claim_decided_has_time" CHECK ("stage" NOT IN ('decided', 'settled') OR "decided_at" IS NOT NULL),
  ADD CONSTRAINT "claim_settled_has_time" CHECK ("stage" <> 'settled' OR "settled_at" IS NOT NULL),
  -- The date is the customer's own, up to a day ahead of ours.
  ADD CONSTRAINT "claim_fitted_before_filing" CHECK ("fitted_on" <= ("filed_at" AT TIME ZONE 'UTC')::date + 1),
  ADD CONSTRAINT "claim_hours_run_not_negative" CHECK ("hours_run" >= 0),
  ADD CONSTRAINT "claim_distance_not_negative" CHECK ("distance_km" >= 0),
  ADD CONSTRAINT "claim_country_is_two_letters" CHECK ("country" ~ '^[A-Z]{2}$'),
  ADD CONSTRAINT "claim_leader_is_a_cause" CHECK ("leader_cause" ~ '^C[0-9]{2,3}$'),
  ADD CONSTRAINT "claim_leader_has_probability" CHECK (("leader_cause" IS NULL) = ("leader_probability" IS NULL)),
  ADD CONSTRAINT "claim_probabilities_in_range" CHECK ("leader_probability" BETWEEN 0 AND 1 AND "unit_probability" BETWEEN 0 AND 1),
  ADD CONSTRAINT "claim_merged_into_another" CHECK (("stage" = 'merged') = ("merged_into_id" IS NOT NULL) AND "merged_into_id" IS DISTINCT FROM "id"),
  ADD CONSTRAINT "claim_version_not_negative" CHECK ("version" >= 0);

ALTER TABLE "claim_key"
  ADD CONSTRAINT "claim_key_hash_is_sha256" CHECK ("hash" ~ '^[0-9a-f]{64}$'),
  ADD CONSTRAINT "claim_key_expires_later" CHECK ("expires_at" > "created_at");

-- Findings, photos, checks

ALTER TABLE "finding"
  ADD CONSTRAINT "finding_code_is_well_formed" CHECK ("code" ~ '^F[0-9]{2,3}$'),
  ADD CONSTRAINT "finding_is_answered_or_measured" CHECK (num_nonnulls("answer", "measured") = 1),
  -- NaN and the infinities are numbers to PostgreSQL, but nobody has measured them.
  ADD CONSTRAINT "finding_measured_is_finite" CHECK ("measured" > '-Infinity' AND "measured" < 'Infinity'),
  ADD CONSTRAINT "finding_replaced_after_observed" CHECK ("replaced_at" >= "observed_at");

CREATE UNIQUE INDEX "finding_stands_once" ON "finding" ("claim_id", "code", "observer") WHERE "replaced_at" IS NULL;

ALTER TABLE "photo"
  ADD CONSTRAINT "photo_has_a_size" CHECK ("width" > 0 AND "height" > 0 AND "bytes" > 0),
  ADD CONSTRAINT "photo_hash_is_sha256" CHECK ("sha256" ~ '^[0-9a-f]{64}$');

ALTER TABLE "check_request"
  ADD CONSTRAINT "check_request_code_is_well_formed" CHECK ("finding_code" ~ '^F[0-9]{2,3}$'),
  ADD CONSTRAINT "check_request_open_until_closed" CHECK (("state" = 'open') = ("closed_at" IS NULL)),
  ADD CONSTRAINT "check_request_answered_by_finding" CHECK ("state" = 'answered' OR "finding_id" IS NULL);

CREATE UNIQUE INDEX "check_request_open_once" ON "check_request" ("claim_id", "finding_code") WHERE "state" = 'open';

ALTER TABLE "message"
  ADD CONSTRAINT "message_says_something" CHECK (btrim("body") <> '');

-- Verdicts

ALTER TABLE "verdict"
  ADD CONSTRAINT "verdict_primary_is_a_cause" CHECK ("primary_cause" ~ '^C[0-9]{2,3}$'),
  ADD CONSTRAINT "verdict_contributing_are_causes" CHECK (
    "contributing_causes" IS NOT NULL
    AND array_position("contributing_causes", NULL) IS NULL
    AND array_to_string("contributing_causes", ',') ~ '^(C[0-9]{2,3}(,C[0-9]{2,3})*)?$'
  ),
  ADD CONSTRAINT "verdict_contributing_without_primary" CHECK (NOT "primary_cause" = ANY ("contributing_causes")),
  ADD CONSTRAINT "verdict_origin_fits_attribution" CHECK (
    "origin" IS NULL
    OR ("origin" = 'fitter' AND "attribution" = 'fit')
    OR ("origin" = 'kit' AND "attribution" = 'kit')
    OR ("origin" = 'not_known' AND "attribution" IN ('fit', 'kit'))
  ),
  ADD CONSTRAINT "verdict_overruled_has_reason" CHECK ("way" <> 'overruled' OR btrim("reason") <> ''),
  ADD CONSTRAINT "verdict_superseded_after_decided" CHECK ("superseded_at" >= "decided_at");

CREATE UNIQUE INDEX "verdict_stands_once" ON "verdict" ("claim_id") WHERE "superseded_at" IS NULL;

-- Returns and money

ALTER TABLE "return"
  ADD CONSTRAINT "return_expires_later" CHECK ("expires_at" > "authorised_at"),
  ADD CONSTRAINT "return_received_after_authorised" CHECK ("received_at" >= "authorised_at"),
  ADD CONSTRAINT "return_received_has_time" CHECK ("state" NOT IN ('received', 'on_the_bench', 'dispositioned') OR "received_at" IS NOT NULL);

CREATE UNIQUE INDEX "return_open_once" ON "return" ("claim_id") WHERE "state" NOT IN ('dispositioned', 'expired');

ALTER TABLE "settlement"
  ADD CONSTRAINT "settlement_amount_is_not_zero" CHECK ("amount_minor" <> 0),
  ADD CONSTRAINT "settlement_currency_is_three_letters" CHECK ("currency" ~ '^[A-Z]{3}$'),
  ADD CONSTRAINT "settlement_reverses_another" CHECK ("reverses_id" <> "id");

-- The house

ALTER TABLE "person"
  ADD CONSTRAINT "person_email_is_plain" CHECK ("email" = lower("email") AND "email" ~ '^[^@[:space:]]+@[^@[:space:]]+$'),
  ADD CONSTRAINT "person_password_is_argon2id" CHECK ("password_hash" LIKE '$argon2id$%');

ALTER TABLE "staff_session"
  ADD CONSTRAINT "staff_session_token_is_sha256" CHECK ("token_hash" ~ '^[0-9a-f]{64}$');

ALTER TABLE "seller_settings"
  ADD CONSTRAINT "seller_settings_are_one_row" CHECK ("id" = 1),
  ADD CONSTRAINT "seller_settings_currency_is_three_letters" CHECK ("currency" ~ '^[A-Z]{3}$'),
  ADD CONSTRAINT "seller_settings_working_days_are_weekdays" CHECK (
    cardinality("working_days") > 0 AND "working_days" <@ ARRAY[1, 2, 3, 4, 5, 6, 7]
  ),
  ADD CONSTRAINT "seller_settings_hours_are_in_order" CHECK (
    "opens_at" ~ '^([01][0-9]|2[0-3]):[0-5][0-9]$' AND "closes_at" ~ '^([01][0-9]|2[0-3]):[0-5][0-9]$' AND "opens_at" < "closes_at"
  ),
  ADD CONSTRAINT "seller_settings_promises_are_positive" CHECK ("promised_answer_hours" > 0 AND "return_within_days" > 0);

ALTER TABLE "knowledge_edition"
  ADD CONSTRAINT "knowledge_edition_number_is_positive" CHECK ("number" > 0);

ALTER TABLE "outgoing_mail"
  ADD CONSTRAINT "outgoing_mail_sent_has_time" CHECK (("state" = 'sent') = ("sent_at" IS NOT NULL)),
  ADD CONSTRAINT "outgoing_mail_attempts_not_negative" CHECK ("attempts" >= 0);

-- The audit trail only grows.

CREATE FUNCTION "refuse_audit_change"() RETURNS trigger
LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'the audit trail only grows: % refused', TG_OP USING ERRCODE = 'insufficient_privilege';
END
$$;

CREATE TRIGGER "audit_entry_rows_stay" BEFORE UPDATE OR DELETE ON "audit_entry"
  FOR EACH ROW EXECUTE FUNCTION "refuse_audit_change"();
CREATE TRIGGER "audit_entry_table_stays" BEFORE TRUNCATE ON "audit_entry"
  FOR EACH STATEMENT EXECUTE FUNCTION "refuse_audit_change"();
