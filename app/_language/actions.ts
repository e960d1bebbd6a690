"use server";

import { z } from "zod";
import { customerHere } from "@/lib/access/customer";
import { keepLanguage } from "@/lib/access/language";
import { requireOwnOrigin } from "@/lib/access/own-origin";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { changeLanguage } from "@/lib/operations/change-language";

/** Shows this page, and those after it, in another language; what the customer is sent follows. */
export async function chooseLanguage(form: FormData): Promise<void> {
  await requireOwnOrigin();
  const language = z.enum(LANGUAGES).parse(form.get("language"));
  await keepLanguage(language);
  const customer = await customerHere();
  if (customer) await changeLanguage(customer, language);
}
