import type { CauseCode } from "../diagnosis/knowledge";
import type { Observation } from "../diagnosis/observation";

/** How it was confirmed what the matter was, surest first. */
export const CONFIRMATIONS = ["bench", "technician", "cleared", "photo", "customer_word"] as const;
export type Confirmation = (typeof CONFIRMATIONS)[number];

/**
 * How much one verdict counts, by how it was confirmed (judgement). The bench has the unit in hand and strips it: it
 * counts whole. A technician looked at the vehicle; a claim that a check put right has shown its cause by going away.
 * A photo shows one place. On the customer's word alone a verdict is mostly the ranking given back.
 *
 * Staff see the ranking before they judge (automation bias), so nothing short of the bench counts more than 0.6. That a
 * verdict agrees with the ranking changes nothing: to count such verdicts less would favour whatever the ranking
 * misses. "Unit replaced, no complaint since" is no verdict and is not among these.
 */
export const CONFIRMATION_WEIGHTS: Readonly<Record<Confirmation, number>> = { bench: 1, technician: 0.6, cleared: 0.6, photo: 0.4, customer_word: 0.25 };

/** A confirmed verdict with all that was found on its claim. */
export interface TrainingExample {
  confirmation: Confirmation;
  confirmedAt: Date;
  primary: CauseCode;
  contributing: readonly CauseCode[];
  /** Ids of the catalogue; null where they are not known. */
  kit: string | null;
  vehicle: string | null;
  /** What the claim was filed with. */
  firstContact: readonly Observation[];
  /** What was found later, mostly because the ranking made somebody ask. */
  later: readonly Observation[];
}

/** Units shipped of a kit for a vehicle; null where the order did not tell it. They need not be whole, once shared out. */
export interface KitExposure {
  kit: string;
  vehicle: string | null;
  shipped: number;
}

/** What verdicts are set against. */
export interface Exposure {
  kits: readonly KitExposure[];
  /** Claims filed, decided or not: what is not decided yet is taken to be like the rest. */
  claims: number;
}
