import "server-only";
import { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { currentStaff } from "@/lib/access/staff";

/** Who acts on a claim: the signed-in person, or null where the session has ended. Throws where the id is none. */
export function staffOf(claimId: string): Promise<StaffActor | null> {
  z.guid().parse(claimId);
  return currentStaff();
}
