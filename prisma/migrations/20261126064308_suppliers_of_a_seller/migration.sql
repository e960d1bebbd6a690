-- AlterEnum
ALTER TYPE "import_kind" ADD VALUE 'suppliers' BEFORE 'turbo_models';

-- AlterTable
ALTER TABLE "supplier" ADD COLUMN     "address" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "retired_on" DATE;
