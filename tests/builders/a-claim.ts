import { randomBytes, randomUUID } from "node:crypto";
import { database } from "@/lib/data/client";
import { makeReference } from "@/lib/domain/claims/reference";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { ClaimStage } from "@/lib/domain/claims/stages";

/** A claim on the database at this stage, with the columns that the stage asks for. For one that was filed by hand, see `aFiledClaim`. */
export async function aClaim({ stage = "in_review", serial = null }: { stage?: ClaimStage; serial?: string | null } = {}) {
  const now = new Date();
  return database().claim.create({
    data: {
      reference: makeReference(randomBytes(64)),
      filingKey: randomUUID(),
      stage,
      serial,
      filedBy: "customer",
      contactName: "Ada Brink",
      contactEmail: "ada@example.com",
      filedAt: now,
      promisedAt: now,
      ...(stage === "decided" || stage === "settled" ? { decidedAt: now } : {}),
      ...(stage === "settled" ? { settledAt: now } : {}),
    },
    select: { id: true, reference: true, stage: true, version: true },
  });
}

/** A decided claim with the verdict that stands. */
export async function aDecidedClaim(decidedById: string, remedy: Remedy = "refund") {
  const claim = await aClaim({ stage: "decided" });
  await database().verdict.create({
    data: { claimId: claim.id, primaryCause: "C16", contributingCauses: [], attribution: "unit", way: "confirmed", basis: "bench", remedy, letter: "Dear Ada Brink", decidedById },
  });
  return claim;
}
