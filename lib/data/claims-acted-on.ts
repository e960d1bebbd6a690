import "server-only";
import { database } from "./client";

/** What an act on several claims needs to know of each, in the order of the ids; drafts are left out. */
export async function listClaimsToActOnTogether(claimIds: readonly string[]) {
  const claims = await database().claim.findMany({
    where: { id: { in: [...claimIds] }, stage: { not: "draft" } },
    select: {
      id: true,
      reference: true,
      stage: true,
      assignedToId: true,
      assignedTo: { select: { name: true } },
      wroteAt: true,
      contactEmail: true,
      _count: { select: { checkRequests: { where: { state: "open" } } } },
    },
  });
  const byId = new Map(claims.map((claim) => [claim.id, claim]));
  return claimIds.flatMap((id) => {
    const claim = byId.get(id);
    if (!claim) return [];
    const { _count, contactEmail, assignedTo, ...rest } = claim;
    return [{ ...rest, assignedTo: assignedTo?.name ?? null, openChecks: _count.checkRequests, hasMail: contactEmail !== null }];
  });
}
