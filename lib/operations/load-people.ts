import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { listPeople, type PersonListed } from "@/lib/data/people";
import { refuse, type Refusal } from "./refusal";

export type { PersonListed };

/** Everybody with a place at the desk. */
export async function loadPeople(actor: StaffActor): Promise<{ ok: true; people: readonly PersonListed[] } | Refusal> {
  const refused = await refuse(actor, "manage people");
  return refused ?? { ok: true, people: await listPeople() };
}
