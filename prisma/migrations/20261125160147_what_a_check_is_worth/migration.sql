-- AlterTable
ALTER TABLE "seller_settings" ADD COLUMN     "bench_minute" DOUBLE PRECISION NOT NULL DEFAULT 0.8,
ADD COLUMN     "caution_cost" DOUBLE PRECISION NOT NULL DEFAULT 0.5,
ADD COLUMN     "customer_minute" DOUBLE PRECISION NOT NULL DEFAULT 0.1,
ADD COLUMN     "high_check" DOUBLE PRECISION NOT NULL DEFAULT 200,
ADD COLUMN     "low_check" DOUBLE PRECISION NOT NULL DEFAULT 10,
ADD COLUMN     "middle_check" DOUBLE PRECISION NOT NULL DEFAULT 80,
ADD COLUMN     "missed_defect_cost" DOUBLE PRECISION NOT NULL DEFAULT 600,
ADD COLUMN     "needless_return_cost" DOUBLE PRECISION NOT NULL DEFAULT 150,
ADD COLUMN     "technician_minute" DOUBLE PRECISION NOT NULL DEFAULT 0.6,
ADD COLUMN     "wrong_advice_cost" DOUBLE PRECISION NOT NULL DEFAULT 60;

-- A minute that costs nothing would leave nothing to weigh a check by.
ALTER TABLE "seller_settings"
  ADD CONSTRAINT "seller_settings_stakes_are_in_bounds" CHECK (
    "needless_return_cost" > 0 AND "needless_return_cost" <= 100000
    AND "missed_defect_cost" > 0 AND "missed_defect_cost" <= 100000
    AND "wrong_advice_cost" >= 0 AND "wrong_advice_cost" <= 100000
  ),
  ADD CONSTRAINT "seller_settings_checks_are_in_bounds" CHECK (
    "customer_minute" >= 0.01 AND "customer_minute" <= 100
    AND "technician_minute" >= 0.01 AND "technician_minute" <= 100
    AND "bench_minute" >= 0.01 AND "bench_minute" <= 100
    AND "low_check" >= 0 AND "low_check" <= "middle_check" AND "middle_check" <= "high_check" AND "high_check" <= 100000
    AND "caution_cost" >= 0 AND "caution_cost" <= 1000
  );
