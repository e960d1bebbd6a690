import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { listClaimsToActOnTogether } from "@/lib/data/claims-acted-on";
import { listDeskPeople } from "@/lib/data/claims-for-staff";
import type { Permission } from "@/lib/domain/claims/permissions";
import { type NotDoneReason, whyNot } from "@/lib/domain/claims/several-acts";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { SeveralAct } from "@/lib/inputs/several-claims";
import { needNoAnswer } from "./need-no-answer";
import { type Refusal, refuse } from "./refusal";
import { remindNow } from "./remind-of-checks";
import { takeClaim } from "./take-claim";

const NEEDS: Readonly<Record<SeveralAct, Permission>> = { take: "record a finding", hand_over: "record a finding", need_no_answer: "write a message", remind: "ask for a check" };

export interface SeveralRow {
  id: string;
  reference: string;
  stage: ClaimStage;
  assignedTo: string | null;
  /** Why it is passed over, or would be; null where it is done. */
  notDone: NotDoneReason | "changed-meanwhile" | "reminded-today" | null;
}

export type Several = { ok: true; rows: readonly SeveralRow[]; people: readonly { id: string; name: string }[] } | Refusal;

/** What an act would do to each of these claims. Nothing is changed. */
export async function previewSeveral(actor: StaffActor, act: SeveralAct, claimIds: readonly string[]): Promise<Several> {
  const refused = await refuse(actor, NEEDS[act]);
  if (refused) return refused;
  const [claims, people] = await Promise.all([listClaimsToActOnTogether(claimIds), listDeskPeople()]);
  // To whom they are handed is chosen after this is read: nobody is passed over for that yet.
  return { ok: true, people, rows: claims.map((claim) => ({ ...shown(claim), notDone: whyNot(act, claim, { me: actor.personId, to: "not chosen yet" }) })) };
}

/**
 * Does one act to each of these claims, one transaction each, and tells of every one what came of it. Done twice, the
 * second time passes over what the first has done.
 */
export async function actOnSeveral(actor: StaffActor, act: SeveralAct, claimIds: readonly string[], { to = null, note = "" }: { to?: string | null; note?: string } = {}, now: Date = new Date()): Promise<Several> {
  const refused = await refuse(actor, NEEDS[act]);
  if (refused) return refused;
  const [claims, people] = await Promise.all([listClaimsToActOnTogether(claimIds), listDeskPeople()]);
  const rows: SeveralRow[] = [];
  for (const claim of claims) {
    const notDone = whyNot(act, claim, { me: actor.personId, to });
    rows.push({ ...shown(claim), notDone: notDone ?? (await actOnOne(actor, act, claim, { to, note }, now)) });
  }
  return { ok: true, people, rows };
}

type Claim = Awaited<ReturnType<typeof listClaimsToActOnTogether>>[number];

const shown = ({ id, reference, stage, assignedTo }: Claim) => ({ id, reference, stage, assignedTo });

async function actOnOne(actor: StaffActor, act: SeveralAct, { id, assignedToId }: Claim, { to, note }: { to: string | null; note: string }, now: Date): Promise<SeveralRow["notDone"]> {
  const done =
    act === "take"
      ? await takeClaim(actor, id, { from: null, to: actor.personId })
      : act === "hand_over"
        ? await takeClaim(actor, id, { from: assignedToId, to, note })
        : act === "need_no_answer"
          ? await needNoAnswer(actor, id)
          : await remindNow(actor, id, now);
  if (done.ok) return null;
  return done.reason === "reminded-today" || done.reason === "no-mail" || done.reason === "no-open-check" ? done.reason : "changed-meanwhile";
}
