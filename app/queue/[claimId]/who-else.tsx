import type { StaffActor } from "@/lib/access/actors";
import { SIGN_OF_LIFE_SECONDS } from "@/lib/domain/claims/presence";
import { whoElseIsIn } from "@/lib/operations/be-in-claim";
import { OpenPage } from "./open-page";

/** Who else has this claim open, so that two do not decide the same one. */
export async function WhoElse({ actor, claimId }: { actor: StaffActor; claimId: string }) {
  const found = await whoElseIsIn(actor, claimId);
  return found.ok ? <OpenPage key={claimId} claimId={claimId} others={found.others} seconds={SIGN_OF_LIFE_SECONDS} /> : null;
}
