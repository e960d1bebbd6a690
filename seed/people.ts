import { DAY, type Day, isoInstant } from "./calendar";
import type { World } from "./world";
import type { DemoPerson } from "./demo-people";
import type { Random } from "./random";
import type { Tables } from "./tables";

export type StaffRow = Omit<DemoPerson, "password"> & { passwordHash: string };

/** The people of the shop, and who of them does what in the story. */
export function addPeople(random: Random, staff: readonly StaffRow[], today: Day, tables: Tables): World["staff"] {
  const ids = staff.map(({ email, name, role, passwordHash }) => {
    const id = random.uuid();
    tables.add("person", { id, email, name, role, password_hash: passwordHash, disabled_at: null, created_at: isoInstant((today - 1_200) * DAY) });
    return { id, role };
  });
  const idOf = (role: DemoPerson["role"], nth = 0): string => {
    const person = ids.filter((one) => one.role === role)[nth];
    if (!person) throw new Error(`the demo needs more people with the role ${role}`);
    return person.id;
  };
  return { support: [idOf("support"), idOf("support", 1)], bench: idOf("bench") };
}
