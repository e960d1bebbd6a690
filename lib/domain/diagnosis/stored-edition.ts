import { edition1 } from "./edition-1";
import { type Accuracy, type Edition, type FindingDefinition, type MeasuredFinding, QUANTITIES } from "./knowledge";

/** A document as it was kept: it passed the rules of its own day, which knew less. */
export interface StoredEdition extends Omit<Edition, "findings" | "references" | "experience" | "translations"> {
  findings: readonly (Exclude<FindingDefinition, MeasuredFinding> | StoredMeasurement)[];
  references?: Partial<Edition["references"]>;
  experience?: Edition["experience"];
  translations?: Edition["translations"];
}
type StoredMeasurement = Omit<MeasuredFinding, "quantity" | "accuracy"> & { quantity: string; accuracy?: MeasuredFinding["accuracy"] };

/** Of a reading whose edition does not say, and which the first edition does not know (judgement). */
const FAIR: Accuracy = { absolute: 0, share: 0.1 };
const NOT_SAID: MeasuredFinding["accuracy"] = { customer: FAIR, technician: FAIR, bench: FAIR };

/** What a number is a measure of, and how good it is: as kept, else as the first edition has it of the same finding. */
function measurement(kept: StoredMeasurement): MeasuredFinding {
  const first = edition1.findings.find((one): one is MeasuredFinding => one.kind === "measurement" && one.code === kept.code && one.unit === kept.unit);
  const quantity = QUANTITIES.find((known) => known === kept.quantity) ?? first?.quantity ?? "other";
  return { ...kept, quantity, accuracy: kept.accuracy ?? first?.accuracy ?? NOT_SAID };
}

/**
 * A kept edition as it is read today: what later editions have come to state is filled in where an earlier one does not
 * state it, from the first edition, so that a claim ranked long ago is still explained.
 *
 * Example: one kept before kits had experience has none.
 */
export function fromStored(document: StoredEdition): Edition {
  return {
    ...document,
    findings: document.findings.map((one) => (one.kind === "measurement" ? measurement(one) : one)),
    references: { ...edition1.references, ...document.references },
    experience: document.experience ?? [],
    // Each says which English text it is of, so that none stands for one that was worded otherwise.
    translations: document.translations ?? edition1.translations,
  };
}
