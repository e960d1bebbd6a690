import type { PoolClient } from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { connectionPool } from "@/lib/data/client";

const id = (number: number) => `00000000-0000-4000-8000-${String(number).padStart(12, "0")}`;
const HASH = "0123456789abcdef".repeat(4);

/** One sound row of each table that has rules of its own; all of it is rolled back at the end. */
const SOUND = `
  DELETE FROM seller_settings;
  INSERT INTO seller_settings (id, name, return_address, email, phone, currency, time_zone, working_days, opens_at, closes_at, promised_answer_hours, return_within_days)
    VALUES (1, 'Shop', 'Street', 'desk@example.com', '', 'EUR', 'Europe/Berlin', '{1,2,3,4,5}', '08:00', '17:00', 8, 21);
  INSERT INTO person (id, email, name, role) VALUES ('${id(1)}', 'rules@example.com', 'Rules', 'support');
  INSERT INTO staff_session (id, token_hash, person_id, expires_at) VALUES ('${id(1)}', '${HASH}', '${id(1)}', now() + interval '1 day');
  INSERT INTO saved_filter (id, person_id, name, query, is_start) VALUES ('${id(1)}', '${id(1)}', 'Mine', 'who=mine', true);
  INSERT INTO person_key (id, person_id, hash, expires_at) VALUES ('${id(1)}', '${id(1)}', '${HASH}', now() + interval '1 day');
  INSERT INTO turbo_model (id, code, name, bearing, axial_play_min_mm, axial_play_max_mm, radial_play_max_mm, drain_bore_mm)
    VALUES ('${id(1)}', 'RULES', 'Rules', 'journal', 0.03, 0.09, 0.45, 13);
  INSERT INTO vehicle (id, make, model, engine, fuel, year_from, year_to) VALUES ('${id(1)}', 'Rules', 'One', '2.0', 'diesel', 2009, 2017);
  INSERT INTO "order" (id, number, customer_email, customer_name, country, placed_on)
    VALUES ('${id(1)}', 'RULES-1', 'a@example.com', 'A', 'DE', '2026-01-01');
  INSERT INTO claim (id, reference, filing_key, updated_at) VALUES ('${id(9)}', 'AAAA-AAA-AAA', '${id(9)}', now());
  INSERT INTO claim (id, reference, filing_key, stage, filed_by, contact_name, contact_email, filed_at, promised_at, fitted_on, updated_at,
      leader_cause, leader_probability, unit_probability)
    VALUES ('${id(1)}', 'AAAA-AAA-AAB', '${id(1)}', 'in_review', 'customer', 'A', 'a@example.com', '2026-03-02 10:00Z', '2026-03-03 10:00Z',
      '2026-03-01', now(), 'C01', 0.6, 0.05);
  INSERT INTO claim_key (id, claim_id, kind, hash, expires_at) VALUES ('${id(1)}', '${id(1)}', 'browser', '${HASH}', now() + interval '1 day');
  INSERT INTO finding (id, claim_id, code, observer, answer) VALUES ('${id(1)}', '${id(1)}', 'F01', 'customer', 'present');
  INSERT INTO photo (id, claim_id, subject, storage_key, width, height, bytes, sha256, taken_by)
    VALUES ('${id(1)}', '${id(1)}', 'drain', 'rules/1', 10, 10, 10, '${HASH}', 'customer');
  INSERT INTO photo_upload (id, claim_id, bytes) VALUES ('${id(1)}', '${id(1)}', 10);
  INSERT INTO photo_mark (id, photo_id, number, x, y, word, made_by_id) VALUES ('${id(1)}', '${id(1)}', 1, 0.5, 0.5, 'kinked here', '${id(1)}');
  INSERT INTO desk_note (id, claim_id, person_id, body) VALUES ('${id(1)}', '${id(1)}', '${id(1)}', 'The garage called.');
  INSERT INTO linked_claim (claim_id, other_id, linked_by_id) VALUES ('${id(1)}', '${id(9)}', '${id(1)}');
  INSERT INTO message_template (id, name, english, german) VALUES ('${id(1)}', 'Rules', 'Thank you.', 'Danke.');
  INSERT INTO check_request (id, claim_id, finding_code, asked_by_id) VALUES ('${id(1)}', '${id(1)}', 'F12', '${id(1)}');
  INSERT INTO message (id, claim_id, "from", body) VALUES ('${id(1)}', '${id(1)}', 'customer', 'It drips.');
  INSERT INTO verdict (id, claim_id, primary_cause, contributing_causes, attribution, origin, way, basis, remedy, letter, decided_by_id)
    VALUES ('${id(1)}', '${id(1)}', 'C01', '{C07}', 'fit', 'fitter', 'confirmed', 'technician', 'advice', 'Dear A', '${id(1)}');
  INSERT INTO second_opinion (id, claim_id, verdict_id, primary_cause, attribution, given_by_id) VALUES ('${id(1)}', '${id(1)}', '${id(1)}', 'C01', 'fit', '${id(1)}');
  INSERT INTO return (id, claim_id, number, authorised_by_id, expires_at) VALUES ('${id(1)}', '${id(1)}', 'RULES-R1', '${id(1)}', now() + interval '21 days');
  INSERT INTO bench_inspection (id, return_id, inspected_by_id) VALUES ('${id(1)}', '${id(1)}', '${id(1)}');
  INSERT INTO bench_step_record (inspection_id, step, saved_by_id, unit_before, unit_after) VALUES ('${id(1)}', 'rings', '${id(1)}', 0.1, 0.7);
  INSERT INTO photo (id, claim_id, subject, storage_key, width, height, bytes, sha256, taken_by, bench_inspection_id, bench_step)
    VALUES ('${id(8)}', '${id(1)}', 'shaft', 'rules/8', 10, 10, 10, '${HASH.replace("0", "f")}', 'bench', '${id(1)}', 'rings');
  INSERT INTO disposition (id, return_id, kind, keep_until, decided_by_id) VALUES ('${id(1)}', '${id(1)}', 'held_as_evidence', '2026-09-01', '${id(1)}');
  INSERT INTO supplier (id, code, name, email) VALUES ('${id(1)}', 'RULES', 'Rules', 'rules@example.com');
  INSERT INTO chargeback (id, supplier_id, currency, bench_minute, made_by_id) VALUES ('${id(1)}', '${id(1)}', 'EUR', 0.8, '${id(1)}');
  INSERT INTO chargeback_line (id, chargeback_id, verdict_id, cause, remedy_minor, carriage_minor, bench_minutes, bench_minor)
    VALUES ('${id(1)}', '${id(1)}', '${id(1)}', 'C15', 42000, 900, 60, 4800);
  INSERT INTO chargeback_answer (id, line_id, accepted_minor, booked_by_id) VALUES ('${id(1)}', '${id(1)}', 42000, '${id(1)}');
  INSERT INTO parcel (id, number, return_id, received_by_id) VALUES ('${id(1)}', 'RULES-P1', '${id(1)}', '${id(1)}');
  INSERT INTO place (code, name, kind, position) VALUES ('RULES-SHELF', 'Rules', 'shelf', 99);
  INSERT INTO handover (id, parcel_id, number, person_id, from_code, to_code) VALUES ('${id(1)}', '${id(1)}', 1, '${id(1)}', 'DOOR', 'RULES-SHELF');
  INSERT INTO person (id, email, name, role) VALUES ('${id(2)}', 'second@example.com', 'Second', 'support');
  INSERT INTO verdict_proposal (id, claim_id, primary_cause, contributing_causes, attribution, way, basis, remedy, letter, grounds, proposed_by_id)
    VALUES ('${id(1)}', '${id(1)}', 'C15', '{}', 'unit', 'confirmed', 'technician', 'replacement', 'Dear A', '{above_value}', '${id(1)}');
  INSERT INTO warranty_terms (number, valid_from, document, change, drafted_by_id, updated_at) VALUES (9001, '2026-07-01', '{}', 'Rules', '${id(1)}', now());
  INSERT INTO settlement (id, claim_id, kind, amount_minor, seller_minor, currency, booked_by_id) VALUES ('${id(1)}', '${id(1)}', 'goodwill', 100, 100, 'EUR', '${id(1)}');
  INSERT INTO knowledge_edition (number, name, document, origin) VALUES (9001, 'Rules', '{}', 'shipped');
  INSERT INTO knowledge_edition (number, name, document, origin, basis_number, why) VALUES (9002, 'Rules', '{}', 'by_hand', 9001, 'To try the rules');
  INSERT INTO edition_trial (id, edition_number, against_number, kind) VALUES ('${id(1)}', 9002, 9001, 'dry_run');
  INSERT INTO trial_change (trial_id, claim_id, before_cause, before_probability, after_cause, after_probability, unit_shift)
    VALUES ('${id(1)}', '${id(1)}', 'C01', 0.6, 'C03', 0.5, -0.1);
  INSERT INTO outgoing_mail (id, once_key, to_name, to_address, subject, text, html) VALUES ('${id(1)}', 'rules', 'A', 'a@example.com', 's', 't', 'h');
  INSERT INTO import (id, kind, file_name, bytes, sha256, reading, uploaded_by_id) VALUES ('${id(1)}', 'kits', 'kits.csv', 10, '${HASH}', '{}', '${id(1)}');
  INSERT INTO signal (id, batch, cause, first_seen_at, seen_at, stands_out, looks, place, first_figures, figures, act, version)
    VALUES ('${id(1)}', 'RULES-B', 'C15', now(), now(), true, 1, 1, '{}', '{}', 'noted', 1);
  INSERT INTO signal_decision (id, signal_id, number, act, note, decided_by_id) VALUES ('${id(1)}', '${id(1)}', 1, 'noted', 'Seen', '${id(1)}');
  INSERT INTO audit_entry (actor_kind, action, claim_id) VALUES ('system', 'rules', '${id(1)}');
`;

const change = (table: string, set: string) => `UPDATE "${table}" SET ${set} WHERE id = '${id(1)}'`;
const edition = (set: string) => `UPDATE knowledge_edition SET ${set} WHERE number = 9002`;
const trialChange = (set: string) => `UPDATE trial_change SET ${set}`;
const settings = (set: string) => `UPDATE seller_settings SET ${set}`;
const copyOf = (table: string, columns: string) =>
  `INSERT INTO "${table}" (id, ${columns}) SELECT '${id(2)}', ${columns} FROM "${table}" WHERE id = '${id(1)}'`;

const terms = (set: string) => `UPDATE warranty_terms SET ${set} WHERE number = 9001`;
/** A booking by its kind, amount, shares and what is held: no row of them is ever changed. */
const booked = (values: string, { reverses = null, currency = "EUR", round = 1 }: { reverses?: string | null; currency?: string; round?: number } = {}) =>
  `INSERT INTO settlement (id, claim_id, booked_by_id, currency, round, reverses_id, kind, amount_minor, seller_minor, customer_minor, supplier_minor, held_minor)
    VALUES ('${id(2)}', '${id(1)}', '${id(1)}', '${currency}', ${round}, ${reverses === null ? "NULL" : `'${reverses}'`}, ${values})`;

/** Each check constraint, and changes to a sound row that it alone refuses. */
const CHECKS: Readonly<Record<string, readonly string[]>> = {
  turbo_model_axial_play_is_a_range: [change("turbo_model", "axial_play_min_mm = 0.2"), change("turbo_model", "axial_play_min_mm = -1")],
  turbo_model_radial_play_is_positive: [change("turbo_model", "radial_play_max_mm = 0")],
  turbo_model_drain_bore_is_positive: [change("turbo_model", "drain_bore_mm = 0")],
  vehicle_years_are_in_order: [change("vehicle", "year_to = 2008"), change("vehicle", "year_from = 19")],
  order_country_is_two_letters: [change("order", "country = 'de'")],
  claim_reference_is_well_formed: [
    change("claim", "reference = 'AAAA-AAA-AA0'"),
    change("claim", "reference = 'aaaa-aaa-aaa'"),
    change("claim", "reference = 'AAAAAAAAAA'"),
  ],
  claim_filed_is_complete: ["filed_by", "contact_name", "contact_email", "filed_at", "promised_at"].map((column) => change("claim", `${column} = NULL`)).concat(change("claim", `contact_email = NULL, taken_down_by_id = '${id(1)}'`), change("claim", "contact_email = NULL, contact_phone = '+49 1'")),
  claim_draft_is_not_filed: [change("claim", "stage = 'draft'")],
  claim_promise_follows_filing: [change("claim", "promised_at = '2026-03-01 10:00Z'")],
  claim_decided_has_time: [change("claim", "stage = 'decided'"), change("claim", "stage = 'settled', settled_at = now()")],
  claim_settled_has_time: [change("claim", "stage = 'settled', decided_at = now()")],
  claim_fitted_before_filing: [change("claim", "fitted_on = '2026-03-04'")],
  claim_hours_run_not_negative: [change("claim", "hours_run = -1")],
  claim_distance_not_negative: [change("claim", "distance_km = -0.5")],
  claim_country_is_two_letters: [change("claim", "country = 'D'")],
  claim_leader_is_a_cause: [change("claim", "leader_cause = 'drain'")],
  claim_leader_has_probability: [change("claim", "leader_probability = NULL"), change("claim", "leader_cause = NULL")],
  claim_probabilities_in_range: [
    change("claim", "leader_probability = 1.01"),
    change("claim", "unit_probability = -0.01"),
    change("claim", "unit_probability = 'NaN'"),
  ],
  claim_merged_into_another: [
    change("claim", "stage = 'merged'"),
    change("claim", `merged_into_id = '${id(9)}'`),
    change("claim", "stage = 'merged', merged_into_id = id"),
  ],
  claim_other_serial_is_of_a_pair: [change("claim", "other_serial = 'VT50H-1'")],
  claim_version_not_negative: [change("claim", "version = -1")],
  claim_look_value_not_negative: [change("claim", "look_value = -1"), change("claim", "look_value = 'NaN'")],
  claim_quiet_steps_in_range: [change("claim", "quiet_steps = 4"), change("claim", "quiet_steps = -1")],
  claim_lapses_after_notice: [change("claim", "quiet_steps = 2, lapses_at = now()")],
  claim_key_hash_is_sha256: [change("claim_key", "hash = 'secret'")],
  claim_key_expires_later: [change("claim_key", "expires_at = created_at")],
  finding_code_is_well_formed: [change("finding", "code = 'C01'"), change("finding", "code = 'F1'"), change("finding", "code = 'F٠١'")],
  finding_is_answered_or_measured: [change("finding", "answer = NULL"), change("finding", "measured = 3")],
  finding_measured_is_finite: [change("finding", "answer = NULL, measured = 'NaN'"), change("finding", "answer = NULL, measured = 'Infinity'")],
  finding_spread_is_of_a_number: [change("finding", "spread = 1"), change("finding", "answer = NULL, measured = 3, spread = 0"), change("finding", "answer = NULL, measured = 3, spread = 'Infinity'")],
  finding_replaced_after_observed: [change("finding", "replaced_at = observed_at - interval '1 second'")],
  photo_has_a_size: ["width", "height", "bytes"].map((column) => change("photo", `${column} = 0`)),
  photo_hash_is_sha256: [change("photo", `sha256 = '${HASH.toUpperCase()}'`)],
  photo_upload_received_of_bytes: [change("photo_upload", "bytes = 0"), change("photo_upload", "received = -1"), change("photo_upload", "received = 11")],
  photo_mark_is_on_the_photo: [change("photo_mark", "x = 1.01"), change("photo_mark", "y = -0.01"), change("photo_mark", "x = 'NaN'")],
  photo_mark_number_is_positive: [change("photo_mark", "number = 0")],
  photo_mark_says_something: [change("photo_mark", "word = ' '")],
  photo_mark_removed_by_somebody: [change("photo_mark", "removed_at = now()"), change("photo_mark", `removed_by_id = '${id(1)}'`), change("photo_mark", `removed_by_id = '${id(1)}', removed_at = made_at - interval '1 second'`)],
  desk_note_says_something: [change("desk_note", "body = '  '")],
  linked_claim_lesser_first: [`UPDATE linked_claim SET claim_id = '${id(9)}', other_id = '${id(1)}'`, "UPDATE linked_claim SET other_id = claim_id"],
  message_template_says_something: ["name", "english", "german"].map((column) => change("message_template", `${column} = ' '`)),
  message_template_version_not_negative: [change("message_template", "version = -1")],
  check_request_code_is_well_formed: [change("check_request", "finding_code = 'drain'")],
  check_request_open_until_closed: [change("check_request", "closed_at = now()"), change("check_request", "state = 'withdrawn'")],
  check_request_answered_by_finding: [change("check_request", `finding_id = '${id(1)}'`)],
  message_says_something: [change("message", "body = '  '")],
  verdict_primary_is_a_cause: [change("verdict", "primary_cause = 'F01'")],
  verdict_contributing_are_causes: [
    change("verdict", "contributing_causes = NULL"),
    change("verdict", "contributing_causes = '{C07,drain}'"),
    change("verdict", "contributing_causes = '{C07,NULL}'"),
  ],
  verdict_contributing_without_primary: [change("verdict", "contributing_causes = '{C07,C01}'")],
  verdict_origin_fits_attribution: [
    change("verdict", "attribution = 'kit'"),
    change("verdict", "origin = 'kit'"),
    change("verdict", "origin = 'not_known', attribution = 'unit'"),
  ],
  verdict_overruled_has_reason: [change("verdict", "way = 'overruled', reason = ' '")],
  verdict_superseded_after_decided: [change("verdict", "superseded_at = decided_at - interval '1 second'")],
  second_opinion_primary_is_a_cause: [change("second_opinion", "primary_cause = 'drain'")],
  return_expires_later: [change("return", "expires_at = authorised_at")],
  return_received_after_authorised: [change("return", "received_at = authorised_at - interval '1 second'")],
  return_received_has_time: [change("return", "state = 'received'"), change("return", "state = 'on_the_bench'")],
  return_sender_is_whole: [change("return", "sender_name = 'A'"), change("return", "sender_name = 'A', sender_street = 'B', sender_postcode = '1'")],
  return_in_carriage_has_time: [change("return", "state = 'in_carriage'")],
  return_same_unit_says_how: [change("return", "same_unit_at = now()"), change("return", "same_unit_note = 'The plate was swapped'")],
  place_code_can_be_scanned: ["UPDATE place SET code = 'shelf 9' WHERE code = 'RULES-SHELF'", "UPDATE place SET code = '-9' WHERE code = 'RULES-SHELF'"],
  parcel_is_a_unit_or_says_why: [change("parcel", "return_id = NULL"), change("parcel", "reason = 'wrong_part'")],
  parcel_closed_says_how: [change("parcel", "return_id = NULL, reason = 'no_number', closed_at = now()"), change("parcel", "closing = 'sent back'"), change("parcel", "closed_at = now(), closing = 'sent back'")],
  handover_counts_from_one: [change("handover", "number = 0")],
  handover_goes_elsewhere: [change("handover", "from_code = to_code")],
  bench_inspection_finished_after_start: [change("bench_inspection", "inspected_at = started_at - interval '1 second'")],
  bench_step_record_probabilities_in_range: ["UPDATE bench_step_record SET unit_after = 1.01", "UPDATE bench_step_record SET unit_before = -0.1"],
  photo_of_a_step_is_the_benchs: ["UPDATE photo SET bench_step = NULL WHERE bench_step IS NOT NULL", "UPDATE photo SET taken_by = 'customer' WHERE bench_step IS NOT NULL"],
  disposition_evidence_has_a_day: [change("disposition", "keep_until = NULL"), change("disposition", "kind = 'scrapped'")],
  supplier_answers_within_days: [change("supplier", "answer_within_days = 0")],
  chargeback_currency_is_three_letters: [change("chargeback", "currency = 'eur'")],
  chargeback_rate_not_negative: [change("chargeback", "bench_minute = -1"), change("chargeback", "bench_minute = 'NaN'")],
  chargeback_sent_has_deadline: [change("chargeback", "sent_at = now(), answer_due_on = '2026-04-01'"), change("chargeback", "state = 'sent'"), change("chargeback", "state = 'sent', sent_at = now()")],
  chargeback_closed_has_time: [change("chargeback", "state = 'closed', sent_at = now(), answer_due_on = '2026-04-01'")],
  chargeback_line_cause_is_a_cause: [change("chargeback_line", "cause = 'ring'")],
  chargeback_line_amounts_not_negative: ["remedy_minor", "carriage_minor", "bench_minutes", "bench_minor"].map((column) => change("chargeback_line", `${column} = -1`)),
  chargeback_answer_not_negative: [change("chargeback_answer", "accepted_minor = -1")],
  verdict_approved_by_another: [change("verdict", `approved_by_id = '${id(1)}', approved_at = now()`), change("verdict", `approved_by_id = '${id(2)}'`), change("verdict", "approved_at = now()")],
  verdict_promise_is_sound: ["seller_percent = 101", "promised_minor = 0, promised_currency = 'EUR'", "promised_minor = 100", "promised_currency = 'EUR'", "core_deposit_minor = 100, promised_currency = 'eu'"].map((set) => change("verdict", set)),
  verdict_proposal_promise_is_sound: ["seller_percent = -1", "core_deposit_minor = 100", "promised_minor = -5, promised_currency = 'EUR'"].map((set) => change("verdict_proposal", set)),
  verdict_proposal_has_a_ground: [change("verdict_proposal", "grounds = '{}'"), change("verdict_proposal", "grounds = '{whim}'")],
  verdict_proposal_waits_until_looked_at: [change("verdict_proposal", "state = 'withdrawn'"), change("verdict_proposal", "looked_at_at = now()"), change("verdict_proposal", "state = 'approved', looked_at_at = now()")],
  verdict_proposal_looked_at_by_another: ["approved", "sent_back"].map((state) => change("verdict_proposal", `state = '${state}', looked_at_at = now(), looked_at_by_id = '${id(1)}', note = 'x'`)),
  verdict_proposal_sent_back_says_why: [change("verdict_proposal", `state = 'sent_back', looked_at_at = now(), looked_at_by_id = '${id(2)}', note = ' '`)],
  settlement_amount_is_not_zero: [booked("'goodwill', 0, 0, 0, 0, 0", { reverses: null })],
  settlement_currency_is_three_letters: [booked("'refund', 5, 5, 0, 0, 0", { currency: "eur" })],
  settlement_reverses_another: [booked("'refund', -5, -5, 0, 0, 0", { reverses: id(2) })],
  settlement_reversal_is_negative: [booked("'refund', -5, -5, 0, 0, 0"), booked("'goodwill', 5, 5, 0, 0, 0", { reverses: id(1) })],
  settlement_shares_add_up: [
    ...["'refund', 5, 4, 0, 0, 0", "'refund', 5, 6, -1, 0, 0", "'refund', 5, 5, 0, 0, 5", "'core_held', 5, 5, 0, 0, 0", "'core_held', 5, 0, 0, 0, -5", "'core_released', 5, 0, 0, 0, 5", "'core_kept', 5, 5, -5, 0, -5"].map((values) => booked(values)),
    booked("'goodwill', -100, -90, -20, 10, 0", { reverses: id(1) }),
  ],
  settlement_round_not_negative: [booked("'refund', 5, 5, 0, 0, 0", { round: -1 })],
  warranty_terms_number_is_positive: ["UPDATE warranty_terms SET number = 0 WHERE number = 9001"],
  warranty_terms_in_force_by_somebody: [terms("in_force_at = now()"), terms(`put_in_force_by_id = '${id(1)}'`)],
  warranty_terms_in_force_say_what_is_new: [terms(`in_force_at = now(), put_in_force_by_id = '${id(1)}', change = ' '`)],
  seller_settings_remedies_are_in_bounds: [settings("second_person_above = -1"), settings("carriage_cost = -1"), settings("unit_cost = 'NaN'")],
  turbo_model_replacement_cost_is_in_bounds: [change("turbo_model", "replacement_cost = 0"), change("turbo_model", "replacement_cost = 'NaN'")],
  person_email_is_plain: [
    change("person", "email = 'Rules@example.com'"),
    change("person", "email = 'a@b@example.com'"),
    change("person", "email = 'rules'"),
  ],
  person_password_is_argon2id: [change("person", "password_hash = 'secret'")],
  person_key_hash_is_sha256: [change("person_key", "hash = 'secret'")],
  staff_session_token_is_sha256: [change("staff_session", "token_hash = 'secret'")],
  seller_settings_are_one_row: [settings("id = 2")],
  seller_settings_currency_is_three_letters: [settings("currency = 'EU'")],
  seller_settings_working_days_are_weekdays: [settings("working_days = '{}'"), settings("working_days = '{0,1}'"), settings("working_days = '{8}'")],
  seller_settings_hours_are_in_order: [settings("opens_at = '18:00'"), settings("closes_at = '24:30'"), settings("opens_at = '8'")],
  seller_settings_promises_are_positive: [settings("promised_answer_hours = 0"), settings("return_within_days = 0")],
  seller_settings_stakes_are_in_bounds: [settings("needless_return_cost = 0"), settings("missed_defect_cost = 'NaN'"), settings("wrong_advice_cost = -1")],
  seller_settings_checks_are_in_bounds: [settings("customer_minute = 0"), settings("bench_minute = 101"), settings("low_check = 90"), settings("caution_cost = -1")],
  seller_settings_reminders_are_in_order: [settings("first_reminder_days = 0"), settings("second_reminder_days = 4"), settings("lapse_notice_days = 8"), settings("lapse_days = 10")],
  seller_settings_second_opinion_share_is_a_share: [settings("second_opinion_share = -1"), settings("second_opinion_share = 101")],
  knowledge_edition_number_is_positive: ["INSERT INTO knowledge_edition (number, name, document, origin) VALUES (0, 'Rules', '{}', 'shipped')"],
  knowledge_edition_follows_its_basis: [edition("basis_number = 9002")],
  knowledge_edition_made_here_has_a_basis: [edition("basis_number = NULL"), edition("origin = 'shipped'")],
  knowledge_edition_made_here_says_why: [edition("why = ' '")],
  knowledge_edition_discarded_was_never_in_force: [edition("promoted_at = now(), discarded_at = now()")],
  edition_trial_is_against_another: [change("edition_trial", "against_number = 9002")],
  edition_trial_progress_is_in_bounds: [change("edition_trial", "done = 1"), change("edition_trial", "done = -1")],
  edition_trial_finished_has_outcome: [change("edition_trial", "finished_at = now()"), change("edition_trial", "result = '{}'"), change("edition_trial", "finished_at = now(), result = '{}', failure = 'x'")],
  trial_change_leaders_are_causes: [trialChange("before_cause = 'drain'"), trialChange("after_cause = 'F01'")],
  trial_change_leaders_have_probability: [trialChange("before_cause = NULL"), trialChange("after_probability = NULL")],
  trial_change_probabilities_in_range: [trialChange("before_probability = 1.01"), trialChange("after_probability = 'NaN'"), trialChange("unit_shift = -1.5")],
  import_hash_is_sha256: [change("import", "sha256 = 'secret'")],
  import_counts_not_negative: ["bytes_read", "attempts", "rows", "added", "changed", "already_there", "faulty"].map((column) => change("import", `${column} = -1`)).concat(change("import", "bytes = 0")),
  import_queued_by_somebody: [change("import", "state = 'queued'"), change("import", "state = 'running', queued_at = now()")],
  import_finished_has_time: [change("import", "state = 'withdrawn'"), change("import", "finished_at = now()")],
  import_done_without_faults: [change("import", `state = 'done', queued_at = now(), started_by_id = '${id(1)}', finished_at = now(), faulty = 1`)],
  signal_is_about_a_part: [change("signal", "batch = NULL")],
  signal_cause_is_a_cause: [change("signal", "cause = 'seal rings'")],
  signal_act_was_decided: [change("signal", "act = NULL"), change("signal", "version = 0")],
  signal_seen_in_order: [change("signal", "seen_at = first_seen_at - interval '1 day'"), change("signal", "looks = 0"), change("signal", "place = 0")],
  signal_decision_holds_from_a_month: [change("signal_decision", "holds_from = '2026-05-02'")],
  signal_decision_change_has_month: [change("signal_decision", "act = 'drawing_changed'")],
  signal_decision_revision_was_shipped: [change("signal_decision", `kit_revision_id = '${id(1)}'`)],
  outgoing_mail_sent_has_time: [change("outgoing_mail", "state = 'sent'"), change("outgoing_mail", "sent_at = now()")],
  outgoing_mail_bounced_has_failed: [change("outgoing_mail", "bounced_at = now()")],
  outgoing_mail_reached_after_bounce: [change("outgoing_mail", "state = 'failed', bounced_at = now(), reached_at = now() - interval '1 second'")],
  saved_filter_has_a_name: [change("saved_filter", "name = ' '")],
  outgoing_mail_attempts_not_negative: [change("outgoing_mail", "attempts = -1")],
};

/** Each partial unique index: a second row that may not stand beside the first, and what makes room for it. */
const ONCE: Readonly<Record<string, { second: string; room: string }>> = {
  finding_stands_once: { second: copyOf("finding", "claim_id, code, observer, answer"), room: change("finding", "replaced_at = observed_at") },
  check_request_open_once: {
    second: copyOf("check_request", "claim_id, finding_code, asked_by_id"),
    room: change("check_request", "state = 'withdrawn', closed_at = now()"),
  },
  verdict_stands_once: {
    second: copyOf("verdict", "claim_id, primary_cause, contributing_causes, attribution, way, basis, remedy, letter, decided_by_id"),
    room: change("verdict", "superseded_at = decided_at"),
  },
  edition_trial_runs_once: {
    second: copyOf("edition_trial", "edition_number, against_number, kind"),
    room: change("edition_trial", "finished_at = now(), failure = 'The worker stopped'"),
  },
  saved_filter_starts_once: {
    second: `INSERT INTO saved_filter (id, person_id, name, query, is_start) VALUES ('${id(2)}', '${id(1)}', 'Late', 'sort=promised', true)`,
    room: change("saved_filter", "is_start = false"),
  },
  bench_inspection_open_once: { second: copyOf("bench_inspection", "return_id, inspected_by_id"), room: change("bench_inspection", "inspected_at = now()") },
  disposition_stands_once: { second: copyOf("disposition", "return_id, kind, keep_until, decided_by_id"), room: change("disposition", "superseded_at = now()") },
  chargeback_answer_stands_once: { second: copyOf("chargeback_answer", "line_id, accepted_minor, booked_by_id"), room: change("chargeback_answer", "superseded_at = now()") },
  verdict_proposal_waits_once: {
    second: copyOf("verdict_proposal", "claim_id, primary_cause, contributing_causes, attribution, way, basis, remedy, letter, grounds, proposed_by_id"),
    room: change("verdict_proposal", `state = 'withdrawn', looked_at_at = now(), looked_at_by_id = '${id(1)}'`),
  },
  settlement_booked_once: { second: booked("'goodwill', 5, 5, 0, 0, 0", { round: 0 }), room: `DELETE FROM settlement WHERE id = '${id(1)}'` },
  warranty_terms_drafted_once: {
    second: `INSERT INTO warranty_terms (number, valid_from, document, drafted_by_id, updated_at) VALUES (9002, '2026-08-01', '{}', '${id(1)}', now())`,
    room: terms(`in_force_at = now(), put_in_force_by_id = '${id(1)}'`),
  },
  warranty_terms_from_one_day: {
    second: `${terms(`in_force_at = now(), put_in_force_by_id = '${id(1)}'`)};
      INSERT INTO warranty_terms (number, valid_from, document, change, drafted_by_id, updated_at, in_force_at, put_in_force_by_id) VALUES (9002, '2026-07-01', '{}', 'x', '${id(1)}', now(), now(), '${id(1)}')`,
    room: terms("valid_from = '2026-06-01'"),
  },
  return_open_once: {
    second: `INSERT INTO return (id, claim_id, number, authorised_by_id, expires_at)
      SELECT '${id(2)}', claim_id, 'RULES-R2', authorised_by_id, expires_at FROM return WHERE id = '${id(1)}'`,
    room: change("return", "state = 'dispositioned', received_at = now()"),
  },
};

describe("the rules of the data", () => {
  let client: PoolClient;

  beforeAll(async () => {
    client = await connectionPool().connect();
    await client.query("BEGIN");
    await client.query(SOUND);
  });

  afterAll(async () => {
    await client.query("ROLLBACK");
    client.release();
  });

  /** What the database answers to a statement: `kept`, or the name of the rule or the code that refused it. */
  async function answer(...statements: readonly string[]): Promise<string> {
    await client.query("SAVEPOINT before");
    try {
      for (const statement of statements) await client.query(statement);
      return "kept";
    } catch (error) {
      const { constraint, code } = error as { constraint?: string; code?: string };
      return constraint ?? code ?? String(error);
    } finally {
      await client.query("ROLLBACK TO SAVEPOINT before");
    }
  }

  async function names(query: string): Promise<readonly string[]> {
    return (await client.query<{ name: string }>(query)).rows.map(({ name }) => name);
  }

  it("are all there, and every one is tried here", async () => {
    const checks = await names("SELECT conname AS name FROM pg_constraint WHERE contype = 'c' AND connamespace = 'public'::regnamespace");
    expect([...checks].sort()).toEqual(Object.keys(CHECKS).sort());
    const partial = await names(
      "SELECT c.relname AS name FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid WHERE i.indisunique AND i.indpred IS NOT NULL AND c.relnamespace = 'public'::regnamespace",
    );
    expect([...partial].sort()).toEqual(Object.keys(ONCE).sort());
    const triggers = await names("SELECT tgname AS name FROM pg_trigger WHERE NOT tgisinternal AND tgrelid = 'audit_entry'::regclass AND tgenabled = 'O'");
    expect([...triggers].sort()).toEqual(["act_answers_messages", "audit_entry_rows_stay", "audit_entry_table_stays"]);
  });

  it.each(Object.entries(CHECKS).flatMap(([name, statements]) => statements.map((statement) => [name, statement] as const)))(
    "%s refuses %s",
    async (name, statement) => {
      expect(await answer(statement)).toBe(name);
    },
  );

  it.each(Object.entries(ONCE))("%s refuses a second row until the first no longer stands", async (name, { second, room }) => {
    expect(await answer(second)).toBe(name);
    expect(await answer(room, second)).toBe("kept");
  });

  it("let a claim be merged into another, decided and settled", async () => {
    expect(await answer(change("claim", `stage = 'merged', merged_into_id = '${id(9)}'`))).toBe("kept");
    expect(await answer(change("claim", "stage = 'settled', decided_at = now(), settled_at = now()"))).toBe("kept");
  });

  it("let the customer's date be one day ahead of ours", async () => {
    expect(await answer(change("claim", "fitted_on = '2026-03-03'"))).toBe("kept");
  });

  it.each(["UPDATE audit_entry SET action = 'other'", "DELETE FROM audit_entry", "TRUNCATE audit_entry", "TRUNCATE claim CASCADE"])(
    "keep the audit trail from %s",
    async (statement) => {
      expect(await answer(statement)).toBe("42501");
    },
  );

  it.each([change("settlement", "note = 'x'"), `${terms(`in_force_at = now(), put_in_force_by_id = '${id(1)}'`)}; ${terms("change = 'y'")}`, `${terms(`in_force_at = now(), put_in_force_by_id = '${id(1)}'`)}; DELETE FROM warranty_terms WHERE number = 9001`])(
    "keep what is booked and what is in force as it is from %s",
    async (statement) => {
      expect(await answer(statement)).toBe("42501");
    },
  );

  it("keep a claim that has an audit trail", async () => {
    expect(await answer(`DELETE FROM claim WHERE id = '${id(1)}'`)).toBe("audit_entry_claim_id_fkey");
  });
});
