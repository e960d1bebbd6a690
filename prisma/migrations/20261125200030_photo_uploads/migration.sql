-- CreateTable
CREATE TABLE "photo_upload" (
    "id" UUID NOT NULL,
    "claim_id" UUID NOT NULL,
    "bytes" INTEGER NOT NULL,
    "received" INTEGER NOT NULL DEFAULT 0,
    "is_done" BOOLEAN NOT NULL DEFAULT false,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "photo_upload_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "photo_upload_claim_id_idx" ON "photo_upload"("claim_id");

-- AddForeignKey
ALTER TABLE "photo_upload" ADD CONSTRAINT "photo_upload_claim_id_fkey" FOREIGN KEY ("claim_id") REFERENCES "claim"("id") ON DELETE CASCADE ON UPDATE CASCADE;

ALTER TABLE "photo_upload" ADD CONSTRAINT "photo_upload_received_of_bytes" CHECK ("bytes" > 0 AND "received" BETWEEN 0 AND "bytes");
