import { z } from "zod";
import { ROLES } from "@/lib/domain/claims/roles";
import { LONGEST } from "@/lib/domain/intake/fields";
import { emailSchema } from "./sign-in";
import { lineSchema } from "./text";

const name = lineSchema(LONGEST.name, "Write the name");

export const invitationSchema = z.object({ name, email: emailSchema, role: z.enum(ROLES, "Choose a role") });

export const firstAdministratorSchema = z.object({ name, email: emailSchema, password: z.string() });

/** Who is meant by a form beside a person's name. */
export const personSchema = z.object({ personId: z.uuid() });

export const roleChangeSchema = personSchema.extend({ role: z.enum(ROLES) });
