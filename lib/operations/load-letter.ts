import "server-only";
import type { CustomerActor, StaffActor } from "@/lib/access/actors";
import { findLetterOfClaim } from "@/lib/data/verdicts";
import { loadSettings, type SellerSettings } from "@/lib/data/settings";
import type { Language } from "@/lib/domain/claims/languages";
import { letterPdf } from "@/lib/files/pdf-letter";
import { pictureForPrint } from "@/lib/files/pdf-picture";
import { getObject } from "@/lib/files/store";
import { LOCALES } from "@/lib/messages/dates";
import { wordsIn } from "@/lib/messages/words";
import { type Refusal, refuse } from "./refusal";

export interface Letter {
  ok: true;
  text: string;
  /** What the customer reads: the letter and its day are in it. */
  language: Language;
  decidedAt: Date;
  /** Those that go with it. */
  photos: readonly { id: string; subject: string }[];
  seller: Pick<SellerSettings, "name" | "returnAddress" | "phone" | "email" | "timeZone">;
}

/** The letter of the verdict that stands, as it was sent. It names the customer. */
export async function loadLetter(actor: StaffActor, claimId: string): Promise<Letter | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "see the customer", claimId);
  if (refused) return refused;
  const [letter, seller] = await Promise.all([findLetterOfClaim(claimId), loadSettings()]);
  if (!letter) return { ok: false, reason: "not-found" };
  return { ok: true, text: letter.text, language: letter.claim.language, decidedAt: letter.decidedAt, photos: letter.photos.map(({ id, subject }) => ({ id, subject })), seller };
}

export type LetterFile = { ok: true; pdf: Buffer; name: string } | Refusal | { ok: false; reason: "not-found" };

/** The same as a PDF. */
export async function makeLetterFile(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<LetterFile> {
  return (await refuse(actor, "see the customer", claimId)) ?? fileOf(claimId, now);
}

/** The letter on the customer's own claim as a PDF. */
export function makeMyLetterFile(actor: CustomerActor, now: Date = new Date()): Promise<LetterFile> {
  return fileOf(actor.claimId, now);
}

/** Countries whose printers hold Letter and not A4. */
const LETTER_COUNTRIES = new Set(["US", "CA", "MX"]);

async function fileOf(claimId: string, now: Date): Promise<LetterFile> {
  const [letter, seller] = await Promise.all([findLetterOfClaim(claimId), loadSettings()]);
  if (!letter) return { ok: false, reason: "not-found" };
  const { language, reference, country } = letter.claim;
  const words = wordsIn(language);
  const pictures = [];
  for (const [place, { storageKey }] of letter.photos.entries()) {
    const bytes = await getObject(storageKey);
    if (bytes) pictures.push({ jpeg: await pictureForPrint(bytes), caption: words("letter.photo", { number: place + 1 }) });
  }
  const pdf = await letterPdf({
    text: letter.text,
    title: words("letter.title", { reference }),
    day: new Intl.DateTimeFormat(LOCALES[language], { dateStyle: "long", timeZone: seller.timeZone }).format(letter.decidedAt),
    language: LOCALES[language],
    paper: country !== null && LETTER_COUNTRIES.has(country) ? "LETTER" : "A4",
    seller: { name: seller.name, address: addressLines(seller) },
    pictures,
    now,
  });
  return { ok: true, pdf, name: `${reference}.pdf` };
}

/** How the seller is reached. The address of a parcel often begins with the name, which stands above. */
export function addressLines({ name, returnAddress, phone, email }: Pick<SellerSettings, "name" | "returnAddress" | "phone" | "email">): string[] {
  return [...returnAddress.split("\n").filter((line) => line.trim() !== name), phone, email].filter(Boolean);
}
