import type { Role } from "@/lib/domain/claims/roles";

export interface DemoPerson {
  email: string;
  password: string;
  role: Role;
  name: string;
}

/** The sign-ins of the demo. They exist nowhere else: an installation without DEMO never has them. */
export const DEMO_PEOPLE: readonly DemoPerson[] = [
  { email: "iris@brackenhalt.example", password: "drain runs downhill", role: "support", name: "Iris Velthuis" },
  { email: "jonah@brackenhalt.example", password: "vent before the unit", role: "support", name: "Jonah Quist" },
  { email: "marek@brackenhalt.example", password: "dial gauge at the nose", role: "bench", name: "Marek Ostrander" },
  { email: "petra@brackenhalt.example", password: "rate per thousand shipped", role: "product", name: "Petra Lindqvale" },
  { email: "aldo@brackenhalt.example", password: "keys of the whole house", role: "admin", name: "Aldo Fennimar" },
];
