-- CreateTable
CREATE TABLE "person_key" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "hash" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),

    CONSTRAINT "person_key_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "person_key_hash_key" ON "person_key"("hash");

-- CreateIndex
CREATE INDEX "person_key_person_id_idx" ON "person_key"("person_id");

-- CreateIndex
CREATE INDEX "person_key_expires_at_idx" ON "person_key"("expires_at");

-- AddForeignKey
ALTER TABLE "person_key" ADD CONSTRAINT "person_key_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- Only hashes are kept.
ALTER TABLE "person_key" ADD CONSTRAINT "person_key_hash_is_sha256" CHECK ("hash" ~ '^[0-9a-f]{64}$');
