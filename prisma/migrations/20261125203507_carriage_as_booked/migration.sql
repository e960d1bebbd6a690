-- What carriage cost is booked with each claim.
ALTER TABLE "chargeback"
  DROP CONSTRAINT "chargeback_rates_not_negative",
  DROP COLUMN "carriage_minor",
  ADD CONSTRAINT "chargeback_rate_not_negative" CHECK ("bench_minute" >= 0 AND "bench_minute" < 'Infinity');
