import { z } from "zod";
import { LONGEST } from "@/lib/domain/intake/fields";
import { ALLOWED_FITTERS, LOSS_GROUNDS, PERIOD_STARTS, type TermsDocument } from "@/lib/domain/warranty/terms";
import { linesSchema } from "./text";

const typedWhole = (least: number, most: number) =>
  z
    .string()
    .trim()
    .transform((typed) => typed.replace(/[\s\u00a0.,](?=\d{3}(\D|$))/g, ""))
    .refine((typed) => /^\d*$/.test(typed), { message: "Write a whole number", abort: true })
    .transform((typed) => (typed === "" ? null : Number(typed)))
    .refine((value) => value === null || (value >= least && value <= most), `Write a number from ${least} to ${most.toLocaleString("en")}`);

const typedMonths = typedWhole(1, 240);
const typedBound = typedWhole(1, 10_000_000);

/** The form of a draft, row by row; `kit` or `country` left empty leaves a row out. */
export const termsFormSchema = z
  .object({
    validFrom: z.iso.date("Write the day, as 2026-07-01"),
    change: linesSchema(LONGEST.words, "Write what is new in these terms"),
    from: z.enum(PERIOD_STARTS, "Choose from when it runs"),
    months: typedMonths.refine((value): value is number => value !== null, "Write how many months"),
    distanceKm: typedBound,
    hours: typedBound,
    fitter: z.enum(ALLOWED_FITTERS, "Choose who may fit it"),
    lostBy: z.array(z.enum(LOSS_GROUNDS)).default([]),
    kits: z.array(z.object({ kit: z.string().trim().max(40), months: typedMonths, distanceKm: typedBound, hours: typedBound, fitter: z.enum(["", ...ALLOWED_FITTERS]).transform((fitter) => fitter || null) })),
    countries: z.array(z.object({ country: z.string().trim().toUpperCase().regex(/^([A-Z]{2})?$/, "Write the two letters of a country, as DE"), note: linesSchema(LONGEST.words) })),
  })
  .transform(({ validFrom, change, from, months: length, distanceKm, hours, fitter, lostBy, kits, countries }) => ({
    validFrom,
    change,
    document: {
      period: { from, months: length, distanceKm, hours },
      fitter,
      lostBy,
      kits: kits.filter(({ kit }) => kit !== ""),
      countries: countries.filter(({ country, note }) => country !== "" || note !== ""),
    } satisfies TermsDocument,
  }))
  .superRefine(({ document }, context) => {
    const twice = (codes: readonly string[]) => codes.find((code, place) => codes.indexOf(code) < place);
    const kit = twice(document.kits.map((own) => own.kit));
    if (kit) context.addIssue({ code: "custom", path: ["kits"], message: `${kit} stands twice` });
    const country = twice(document.countries.map((one) => one.country));
    if (country) context.addIssue({ code: "custom", path: ["countries"], message: `${country} stands twice` });
    if (document.countries.some((one) => one.country === "" || one.note === "")) context.addIssue({ code: "custom", path: ["countries"], message: "A note needs a country, and a country a note" });
  });
export type TermsForm = z.output<typeof termsFormSchema>;

/** The values of a posted draft as the schema takes them: `kit-3-months`, `country-1-note`. */
export function termsFromForm(form: FormData): Record<string, unknown> {
  const typed = (name: string) => String(form.get(name) ?? "");
  const rows = (kind: "kit" | "country") => [...new Set([...form.keys()].flatMap((name) => new RegExp(`^${kind}-(\\d{1,3})-`).exec(name)?.[1] ?? []))];
  return {
    ...Object.fromEntries(["validFrom", "change", "from", "months", "distanceKm", "hours", "fitter"].map((name) => [name, typed(name)])),
    lostBy: form.getAll("lostBy"),
    kits: rows("kit").map((row) => Object.fromEntries(["kit", "months", "distanceKm", "hours", "fitter"].map((name) => [name, typed(`kit-${row}-${name}`)]))),
    countries: rows("country").map((row) => ({ country: typed(`country-${row}-country`), note: typed(`country-${row}-note`) })),
  };
}
