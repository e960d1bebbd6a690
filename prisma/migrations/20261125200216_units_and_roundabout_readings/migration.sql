-- CreateEnum
CREATE TYPE "units" AS ENUM ('metric', 'imperial');

-- AlterTable
ALTER TABLE "claim" ADD COLUMN     "units" "units" NOT NULL DEFAULT 'metric';

-- AlterTable
ALTER TABLE "finding" ADD COLUMN     "spread" DOUBLE PRECISION;

ALTER TABLE "finding" ADD CONSTRAINT finding_spread_is_of_a_number
  CHECK (spread IS NULL OR (measured IS NOT NULL AND spread > 0 AND spread < 'Infinity'));
