-- AlterTable
ALTER TABLE "seller_settings" ADD COLUMN     "second_opinion_share" INTEGER NOT NULL DEFAULT 5;

-- CreateTable
CREATE TABLE "second_opinion" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "verdict_id" UUID NOT NULL,
    "primary_cause" TEXT NOT NULL,
    "attribution" "attribution" NOT NULL,
    "given_by_id" UUID NOT NULL,
    "given_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "second_opinion_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "second_opinion_claim_id_key" ON "second_opinion"("claim_id");

-- CreateIndex
CREATE INDEX "second_opinion_verdict_id_idx" ON "second_opinion"("verdict_id");

-- CreateIndex
CREATE INDEX "second_opinion_given_by_id_idx" ON "second_opinion"("given_by_id");

-- CreateIndex
CREATE INDEX "second_opinion_given_at_idx" ON "second_opinion"("given_at");

-- AddForeignKey
ALTER TABLE "second_opinion" ADD CONSTRAINT "second_opinion_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "second_opinion" ADD CONSTRAINT "second_opinion_verdict_id_fkey" FOREIGN KEY ("verdict_id") REFERENCES "verdict"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "second_opinion" ADD CONSTRAINT "second_opinion_given_by_id_fkey" FOREIGN KEY ("given_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- What Prisma cannot say.
ALTER TABLE "second_opinion"
  ADD CONSTRAINT "second_opinion_primary_is_a_cause" CHECK ("primary_cause" ~ '^C[0-9]{2,3}$');

ALTER TABLE "seller_settings"
  ADD CONSTRAINT "seller_settings_second_opinion_share_is_a_share" CHECK ("second_opinion_share" BETWEEN 0 AND 100);
