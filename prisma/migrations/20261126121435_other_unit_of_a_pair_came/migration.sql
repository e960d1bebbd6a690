-- AlterTable
ALTER TABLE "return" ADD COLUMN     "other_serial_seen" TEXT;
