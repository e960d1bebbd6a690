-- AlterTable
ALTER TABLE "seller_settings" ALTER COLUMN "customer_minute" SET DEFAULT 0.2,
ALTER COLUMN "wrong_advice_cost" SET DEFAULT 150;

-- Where nobody has set them yet.
UPDATE "seller_settings" SET "wrong_advice_cost" = 150 WHERE "wrong_advice_cost" = 60;
UPDATE "seller_settings" SET "customer_minute" = 0.2 WHERE "customer_minute" = 0.1;
