import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { database, inTransaction } from "@/lib/data/client";
import { listKits } from "@/lib/data/purchases";
import { loadSettings } from "@/lib/data/settings";
import { deleteTermsDraft, insertTermsDraft, type KeptTerms, listTerms, lockTerms, putTermsInForce, updateTermsDraft } from "@/lib/data/warranty-terms";
import { may } from "@/lib/domain/claims/permissions";
import { addDay, dayAt } from "@/lib/domain/warranty/calendar-day";
import type { TermsDocument } from "@/lib/domain/warranty/terms";
import type { TermsForm } from "@/lib/inputs/warranty";
import { auditActor, refuse, type Refusal } from "./refusal";

export interface WarrantyTermsShown {
  ok: true;
  /** Those that were put in force, the newest first. */
  inForce: readonly KeptTerms[];
  draft: KeptTerms | null;
  kits: readonly { code: string; name: string }[];
  mayChange: boolean;
}

/** All versions of the warranty terms, and the draft of the next. */
export async function loadWarrantyTerms(actor: StaffActor): Promise<WarrantyTermsShown | Refusal> {
  const refused = await refuse(actor, "see the warranty terms");
  if (refused) return refused;
  const [terms, kits] = await Promise.all([listTerms(), listKits()]);
  const mayChange = may(actor.role, "change the warranty terms");
  return { ok: true, inForce: terms.filter(({ inForceAt }) => inForceAt !== null), draft: (mayChange && terms.find(({ inForceAt }) => inForceAt === null)) || null, kits, mayChange };
}

/** What a first version starts from: the least it can say. */
const FIRST: TermsDocument = { period: { from: "shipment", months: 24, distanceKm: null, hours: null }, fitter: "anyone", lostBy: [], kits: [], countries: [] };

/** Begins a draft as a copy of the newest version; where there is one already, that one goes on. */
export async function draftTerms(actor: StaffActor, now: Date = new Date()): Promise<{ ok: true } | Refusal> {
  const refused = await refuse(actor, "change the warranty terms");
  if (refused) return refused;
  const { timeZone } = await loadSettings();
  return inTransaction(async (db): Promise<{ ok: true }> => {
    await lockTerms(db);
    const [newest] = await listTerms(db);
    if (newest?.inForceAt === null) return { ok: true };
    await insertTermsDraft(db, { number: (newest?.number ?? 0) + 1, validFrom: new Date(dayAt(now, timeZone)), document: newest?.document ?? FIRST, change: "", draftedById: actor.personId });
    await appendAudit(db, { actor: auditActor(actor), action: "draft_terms", detail: { terms: (newest?.number ?? 0) + 1 } });
    return { ok: true };
  });
}

export type ChangeTermsResult =
  /** With when it was kept, as whoever goes on with it has seen it. */
  | { ok: true; seen: Date }
  | Refusal
  /** Somebody else has changed the draft since, put it in force or thrown it away. */
  | { ok: false; reason: "changed-meanwhile" }
  | { ok: false; reason: "unknown-kit"; kit: string };

/** Keeps what was typed into the draft. */
export async function keepTermsDraft(actor: StaffActor, number: number, seen: Date, { validFrom, document, change }: TermsForm, now: Date = new Date()): Promise<ChangeTermsResult> {
  const refused = await refuse(actor, "change the warranty terms");
  if (refused) return refused;
  const codes = new Set((await listKits()).map(({ code }) => code));
  const unknown = document.kits.find(({ kit }) => !codes.has(kit));
  if (unknown) return { ok: false, reason: "unknown-kit", kit: unknown.kit };
  return (await updateTermsDraft(database(), number, seen, { validFrom: new Date(validFrom), document, change }, now)) ? { ok: true, seen: now } : { ok: false, reason: "changed-meanwhile" };
}

export type PutInForceResult =
  | { ok: true }
  | Refusal
  | { ok: false; reason: "changed-meanwhile" }
  /** It would rewrite the terms of units that have shipped: it begins on this day at the earliest. */
  | { ok: false; reason: "begins-too-early"; earliest: string };

/** Puts the draft in force, as its reader saw it: from then on it never changes, and earlier versions hold for what shipped under them. */
export async function putDraftInForce(actor: StaffActor, number: number, seen: Date, now: Date = new Date()): Promise<PutInForceResult> {
  const refused = await refuse(actor, "change the warranty terms");
  if (refused) return refused;
  const { timeZone } = await loadSettings();
  return inTransaction(async (db): Promise<PutInForceResult> => {
    await lockTerms(db);
    const terms = await listTerms(db);
    const draft = terms.find((one) => one.number === number && one.inForceAt === null);
    // A draft that was kept says what is new in it: the form asks for it.
    if (!draft || draft.change === "" || draft.updatedAt.getTime() !== seen.getTime()) return { ok: false, reason: "changed-meanwhile" };
    const [last] = terms.filter(({ inForceAt }) => inForceAt !== null);
    const earliest = last && [addDay(last.validFrom), dayAt(now, timeZone)].sort().at(-1);
    if (earliest && draft.validFrom < earliest) return { ok: false, reason: "begins-too-early", earliest };
    if (!(await putTermsInForce(db, number, seen, actor.personId, now))) return { ok: false, reason: "changed-meanwhile" };
    await appendAudit(db, { actor: auditActor(actor), action: "put_terms_in_force", detail: { terms: number, validFrom: draft.validFrom } });
    return { ok: true };
  });
}

/** Throws the draft away. */
export async function dropTermsDraft(actor: StaffActor, number: number): Promise<{ ok: true } | Refusal | { ok: false; reason: "changed-meanwhile" }> {
  const refused = await refuse(actor, "change the warranty terms");
  if (refused) return refused;
  return inTransaction(async (db) => {
    if (!(await deleteTermsDraft(db, number))) return { ok: false, reason: "changed-meanwhile" };
    await appendAudit(db, { actor: auditActor(actor), action: "drop_terms_draft", detail: { terms: number } });
    return { ok: true };
  });
}
