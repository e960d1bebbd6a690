import { randomBytes } from "node:crypto";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { makeReference } from "@/lib/domain/claims/reference";
import { aClaim } from "./a-claim";

/** A claim whose unit has come in, under this serial; what was expected is the claim's own. */
export async function aUnitHere(authorisedBy: StaffActor, { serial = null, serialSeen = serial }: { serial?: string | null; serialSeen?: string | null } = {}) {
  const claim = await aClaim({ stage: "awaiting_the_unit", serial });
  const now = Date.now();
  const { id: returnId } = await database().return.create({
    data: { claimId: claim.id, number: `R-${makeReference(randomBytes(64))}`, state: "received", authorisedById: authorisedBy.personId, authorisedAt: new Date(now - 86_400_000), receivedAt: new Date(now), expiresAt: new Date(now + 86_400_000), serialSeen },
    select: { id: true },
  });
  return { claimId: claim.id, returnId };
}
