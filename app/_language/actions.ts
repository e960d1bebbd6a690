"use server";

import { z } from "zod";
import { customerHere } from "@/lib/access/customer";
import { keepLanguage } from "@/lib/access/language";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { keepUnits } from "@/lib/access/units";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { UNIT_SYSTEMS } from "@/lib/domain/claims/unit-systems";
import { changeLanguage } from "@/lib/operations/change-language";
import { changeUnits } from "@/lib/operations/change-units";

/** Shows this page, and those after it, in another language; what the customer is sent follows. */
export async function chooseLanguage(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const language = z.enum(LANGUAGES).parse(form.get("language"));
  await keepLanguage(language);
  const customer = await customerHere();
  if (customer) await changeLanguage(customer, language);
}

/** Shows amounts in other units from now on. */
export async function chooseUnits(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const units = z.enum(UNIT_SYSTEMS).parse(form.get("units"));
  await keepUnits(units);
  const customer = await customerHere();
  if (customer) await changeUnits(customer, units);
}
