-- CreateEnum
CREATE TYPE "language" AS ENUM ('en', 'de');

-- AlterTable
ALTER TABLE "claim" ADD COLUMN     "language" "language" NOT NULL DEFAULT 'en';
