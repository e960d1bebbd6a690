import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";
import type { Say } from "@/lib/domain/say";

/** Who stands on the label as the sender: asked for when a label is wanted, and not before. */
export const senderFields = (say: Say): readonly IntakeField[] => [
  { name: "name", kind: "text", label: say("sendIn.label.name"), longest: LONGEST.name, missing: say("sendIn.label.nameMissing"), autoComplete: "name" },
  { name: "street", kind: "text", label: say("sendIn.label.street"), longest: LONGEST.name, missing: say("sendIn.label.streetMissing"), autoComplete: "address-line1" },
  { name: "postcode", kind: "text", label: say("sendIn.label.postcode"), longest: LONGEST.number, missing: say("sendIn.label.postcodeMissing"), autoComplete: "postal-code" },
  { name: "place", kind: "text", label: say("sendIn.label.place"), longest: LONGEST.name, missing: say("sendIn.label.placeMissing"), autoComplete: "address-level2" },
];

/** Who carries the parcel, and its number there. */
export const carriageFields = (say: Say): readonly IntakeField[] => [
  { name: "carrier", kind: "text", label: say("sendIn.way.carrier"), longest: LONGEST.code, missing: say("sendIn.way.carrierMissing"), autoComplete: "off" },
  { name: "trackingNumber", kind: "text", label: say("sendIn.way.tracking"), hint: say("sendIn.way.trackingHint"), longest: LONGEST.code, signs: "code", autoComplete: "off" },
];
