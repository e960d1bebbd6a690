import "server-only";
import { cookies } from "next/headers";
import { FIRST_UNIT_SYSTEM, UNIT_SYSTEMS, type UnitSystem } from "@/lib/domain/claims/unit-systems";
import { env } from "@/lib/env";
import { customerHere } from "./customer";

const UNITS_COOKIE = "fit-or-fault.units";
const COOKIE_DAYS = 365;

/** The units of this request: those of the claim or draft that the page is about, else those chosen in this browser. */
export async function currentUnits(): Promise<UnitSystem> {
  const customer = await customerHere();
  if (customer) return customer.units;
  const chosen = (await cookies()).get(UNITS_COOKIE)?.value;
  return UNIT_SYSTEMS.find((units) => units === chosen) ?? FIRST_UNIT_SYSTEM;
}

/** Remembers the choice in this browser. */
export async function keepUnits(units: UnitSystem): Promise<void> {
  (await cookies()).set(UNITS_COOKIE, units, { httpOnly: true, sameSite: "lax", secure: env.APP_ORIGIN.startsWith("https:"), path: "/", maxAge: COOKIE_DAYS * 86_400 });
}
