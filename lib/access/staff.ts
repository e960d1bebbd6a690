import "server-only";
import { redirect } from "next/navigation";
import { getServerSession } from "next-auth";
import { findStaffSession } from "@/lib/data/staff-sessions";
import type { StaffActor } from "./actors";
import { authOptions } from "./auth-options";
import { hashSecret } from "./secrets";

/** The signed-in person of this request, or null. */
export async function currentStaff(): Promise<StaffActor | null> {
  const session = await getServerSession(authOptions);
  return session ? staffActor(session.user) : null;
}

/** The signed-in person of this request; anybody else is sent to sign in and back. */
export async function requireStaff(returnTo: string): Promise<StaffActor> {
  return (await currentStaff()) ?? redirect(`/sign-in?next=${encodeURIComponent(returnTo)}`);
}

/** The person behind a session token, or null: for programs that are not a page. */
export async function staffByToken(token: string): Promise<StaffActor | null> {
  const session = await findStaffSession(hashSecret(token), new Date());
  return session ? staffActor(session.person) : null;
}

function staffActor(person: { id: string; name: string; role: StaffActor["role"] }): StaffActor {
  // The brand exists only in the type: this is the one place that proves it.
  return { kind: "staff", personId: person.id, name: person.name, role: person.role } as StaffActor;
}
