-- CreateEnum
CREATE TYPE "import_kind" AS ENUM ('turbo_models', 'kits', 'vehicles', 'fitments', 'shipments');

-- CreateEnum
CREATE TYPE "import_state" AS ENUM ('uploaded', 'queued', 'running', 'done', 'refused', 'failed', 'withdrawn');

-- CreateTable
CREATE TABLE "import" (
    "id" UUID NOT NULL,
    "kind" "import_kind" NOT NULL,
    "state" "import_state" NOT NULL DEFAULT 'uploaded',
    "file_name" TEXT NOT NULL,
    "storage_key" TEXT,
    "bytes" INTEGER NOT NULL,
    "sha256" TEXT NOT NULL,
    "reading" JSONB NOT NULL,
    "uploaded_by_id" UUID NOT NULL,
    "uploaded_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "started_by_id" UUID,
    "queued_at" TIMESTAMPTZ(3),
    "finished_at" TIMESTAMPTZ(3),
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "phase" TEXT,
    "bytes_read" INTEGER NOT NULL DEFAULT 0,
    "rows" INTEGER NOT NULL DEFAULT 0,
    "added" INTEGER NOT NULL DEFAULT 0,
    "changed" INTEGER NOT NULL DEFAULT 0,
    "already_there" INTEGER NOT NULL DEFAULT 0,
    "faulty" INTEGER NOT NULL DEFAULT 0,
    "reason" TEXT,

    CONSTRAINT "import_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "import_problem" (
    "import_id" UUID NOT NULL,
    "ordinal" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "field" TEXT NOT NULL,
    "column" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "problem" TEXT NOT NULL,
    "other" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "import_problem_pkey" PRIMARY KEY ("import_id","ordinal")
);

-- CreateIndex
CREATE UNIQUE INDEX "import_storage_key_key" ON "import"("storage_key");

-- CreateIndex
CREATE INDEX "import_state_queued_at_idx" ON "import"("state", "queued_at");

-- CreateIndex
CREATE INDEX "import_uploaded_at_idx" ON "import"("uploaded_at");

-- CreateIndex
CREATE INDEX "import_uploaded_by_id_idx" ON "import"("uploaded_by_id");

-- CreateIndex
CREATE INDEX "import_started_by_id_idx" ON "import"("started_by_id");

-- AddForeignKey
ALTER TABLE "import" ADD CONSTRAINT "import_uploaded_by_id_fkey" FOREIGN KEY ("uploaded_by_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "import" ADD CONSTRAINT "import_started_by_id_fkey" FOREIGN KEY ("started_by_id") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "import_problem" ADD CONSTRAINT "import_problem_import_id_fkey" FOREIGN KEY ("import_id") REFERENCES "import"("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- What the schema cannot say.

ALTER TABLE "import"
  ADD CONSTRAINT "import_hash_is_sha256" CHECK ("sha256" ~ '^[0-9a-f]{64}$'),
  ADD CONSTRAINT "import_counts_not_negative" CHECK (
    "bytes" > 0 AND "bytes_read" >= 0 AND "attempts" >= 0 AND "rows" >= 0 AND "added" >= 0 AND "changed" >= 0 AND "already_there" >= 0 AND "faulty" >= 0
  ),
  ADD CONSTRAINT "import_queued_by_somebody" CHECK ("state" IN ('uploaded', 'withdrawn') OR ("queued_at" IS NOT NULL AND "started_by_id" IS NOT NULL)),
  ADD CONSTRAINT "import_finished_has_time" CHECK (("state" IN ('done', 'refused', 'failed', 'withdrawn')) = ("finished_at" IS NOT NULL)),
  ADD CONSTRAINT "import_done_without_faults" CHECK ("state" <> 'done' OR "faulty" = 0);
