import type { Staging } from "../catalogue/entries";
import type { CautionCode, Edition, FindingCode, FindingDefinition, MeasuredUnit } from "../diagnosis/knowledge";
import { CUBIC_METRES_PER, CUBIC_METRES_PER_SECOND_PER, METRES_PER, PASCALS_PER } from "../physics/user-units";
import type { Say } from "../say";
import type { Screen } from "./answers";
import { type FieldUnit, type IntakeField, type IntakeScreen, LONGEST } from "./fields";
import { FINDINGS_ASKED, isAskedAsOwner, type IntakeState, mayBeOfPair } from "./questions";

/** What can be picked from the catalogue on a screen. */
export interface Choices {
  kits: readonly { id: string; name: string }[];
  vehicles: readonly { id: string; name: string }[];
  items: readonly { id: string; name: string }[];
}

export const DONT_KNOW = "unknown";
export const OTHER = "other";
const MM: FieldUnit = { value: "mm", label: "mm", factor: 1 };
/** Units that are words; all others are signs, the same in every language. */
const WORDED_UNITS: Readonly<Record<string, string>> = { in: "units.in", ft: "units.ft", mi: "units.mi", h: "units.h", inH2O: "units.inH2O", "cu in": "units.cuIn" };
/** Units that are read otherwise than they are kept; what is counted needs none. */
const SIGNS: Readonly<Record<string, string>> = { deg: "\u00b0", elbows: "" };
/** A unit as it is read. */
export function unitInWords({ value, label }: Pick<FieldUnit, "value" | "label">, say: Say): string {
  const name = WORDED_UNITS[value];
  return name ? say(name) : (SIGNS[value] ?? label);
}
const worded = (units: readonly FieldUnit[], say: Say): FieldUnit[] => units.map((unit) => ({ ...unit, label: unitInWords(unit, say) }));
/** What a run is told in; hours are kept apart from kilometres. */
export const RUN_UNITS = [
  { value: "km", label: "km", factor: 1 },
  { value: "mi", label: "mi", factor: 1.609344 },
  { value: "h", label: "h", factor: 1 },
] as const satisfies readonly FieldUnit[];
/** A unit to type in, as so many of the stored one. */
const typed = (value: string, label: string, si: number, storedSi: number): FieldUnit => ({ value, label, factor: si / storedSi });
const pressures = (stored: "kPa" | "bar", ...others: readonly ("kPa" | "bar" | "psi" | "mbar" | "inH2O")[]): FieldUnit[] =>
  [stored, ...others].map((unit) => typed(unit, unit, PASCALS_PER[unit], PASCALS_PER[stored]));
const flows = (stored: "l/min" | "m3/h", ...others: readonly ("l/min" | "m3/h" | "ft3/h" | "ft3/min")[]): FieldUnit[] =>
  [stored, ...others].map((unit) => typed(unit, unit.replace("3", "\u00b3"), CUBIC_METRES_PER_SECOND_PER[unit], CUBIC_METRES_PER_SECOND_PER[stored]));

/** What each stored unit may be typed in; the stored one comes first. Others are only typed as they are stored. */
const UNITS: Readonly<Partial<Record<MeasuredUnit, readonly FieldUnit[]>>> = {
  mm: [MM, typed("in", "in", METRES_PER.in, METRES_PER.mm)],
  m: [typed("m", "m", 1, 1), typed("ft", "ft", METRES_PER.ft, 1), typed("mm", "mm", METRES_PER.mm, 1), typed("in", "in", METRES_PER.in, 1)],
  kPa: pressures("kPa", "inH2O", "mbar", "psi", "bar"),
  bar: pressures("bar", "psi", "kPa"),
  "l/min": flows("l/min", "m3/h", "ft3/h", "ft3/min"),
  "m3/h": flows("m3/h", "l/min", "ft3/min"),
  l: [typed("l", "l", CUBIC_METRES_PER.l, CUBIC_METRES_PER.l), typed("cu in", "cu in", CUBIC_METRES_PER["cu in"], CUBIC_METRES_PER.l)],
};

/**
 * A screen in full: title, cautions and fields. Questions about findings are worded by the edition in force, which is
 * given in the customer's language.
 *
 * @param today the latest day a date may name, `2026-11-25`
 */
export function describeScreen(screen: Screen, state: IntakeState, edition: Edition, choices: Choices, today: string, say: Say): IntakeScreen {
  const findings = findingsOf(screen, edition);
  const described = findings.length > 0 ? findingScreen(screen, findings, say) : plainScreen(screen, state, edition, choices, today, say);
  return { ...described, cautions: cautionsOf(screen, edition) };
}

/** What may hurt whoever looks for the answers of a screen, in the order of the codes. */
export function cautionsOf(screen: Screen, edition: Edition): readonly CautionCode[] {
  // The plate and the places to photograph are at the hot parts.
  if (screen === "serial" || screen === "pictures") return ["S2"];
  return [...new Set(findingsOf(screen, edition).flatMap(({ cautions }) => cautions))].sort();
}

const findingsOf = (screen: Screen, edition: Edition) => (FINDINGS_ASKED[screen] ?? []).flatMap((code) => edition.findings.find((finding) => finding.code === code) ?? []);

/** Title where a screen asks two findings, and its short name in the summary. */
export const screenName = (screen: Screen, say: Say): string => say(`intake.names.${screen}`);

/** What a field that may be left out is called, and what it asks. */
const optional = (question: string, say: Say) => ({ label: say("answers.optional", { question }), question });

function findingScreen(screen: Screen, findings: readonly FindingDefinition[], say: Say): Omit<IntakeScreen, "cautions"> {
  const [only] = findings;
  return {
    title: findings.length === 1 && only ? only.question : screenName(screen, say),
    ...(findings.every(({ kind }) => kind === "measurement") ? { lead: say("intake.measured.lead") } : {}),
    fields: findings.map((finding) => findingField(finding, say)).map((field) => (field.kind === "number" ? { ...field, ...optional(field.label, say) } : field)),
  };
}

/** A finding as a field: choices with "I don't know", or an optional number with its unit. */
export function findingField(finding: FindingDefinition, say: Say): IntakeField {
  const words = { name: finding.code, label: finding.question, hint: finding.why, how: finding.how };
  if (finding.kind === "measurement") {
    return { ...words, kind: "number", units: worded(UNITS[finding.unit] ?? [{ value: finding.unit, label: finding.unit, factor: 1 }], say), storedUnit: finding.unit, what: finding.name, ...finding.plausible };
  }
  const offersDontKnow = finding.options.some(({ value }) => value === DONT_KNOW);
  return {
    ...words,
    kind: "choice",
    missing: say("answers.chooseOne"),
    options: [...finding.options, ...(offersDontKnow ? [] : [{ value: DONT_KNOW, label: say("answers.dontKnowOrSee") }])],
  };
}

function plainScreen(screen: Screen, state: IntakeState, edition: Edition, choices: Choices, today: string, say: Say): Omit<IntakeScreen, "cautions"> {
  const asked = isAskedAsOwner(state.answers) ? "owner" : "technician";
  const dontKnow = { value: DONT_KNOW, label: say("answers.dontKnow") };
  switch (screen) {
    case "who":
      return {
        title: say("intake.who.title"),
        lead: say("intake.who.lead"),
        fields: [
          {
            name: "who",
            kind: "choice",
            label: say("intake.who.title"),
            missing: say("intake.who.missing"),
            options: [
              { value: "owner", label: say("intake.who.owner"), detail: say("intake.who.ownerDetail") },
              { value: "technician", label: say("intake.who.technician"), detail: say("intake.who.technicianDetail") },
            ],
          },
        ],
      };
    case "purchase":
      return {
        title: say("intake.purchase.title"),
        lead: say("intake.purchase.lead"),
        fields: [
          {
            name: "by",
            kind: "choice",
            label: say("intake.purchase.title"),
            missing: say("intake.purchase.missing"),
            options: [
              { value: "order", label: say("intake.purchase.order"), detail: say("intake.purchase.orderDetail") },
              { value: "serial", label: say("intake.purchase.serial"), detail: say("intake.purchase.serialDetail") },
              { value: "kit", label: say("intake.purchase.kit"), detail: say("intake.purchase.kitDetail") },
            ],
          },
        ],
      };
    case "order":
      return {
        title: say("intake.order.title"),
        lead: say("intake.order.lead"),
        fields: [
          { name: "number", kind: "text", label: say("intake.order.number"), longest: LONGEST.code, signs: "code", missing: say("intake.order.numberMissing"), autoComplete: "off" },
          { name: "email", kind: "email", label: say("intake.order.email"), missing: say("intake.order.emailMissing") },
        ],
      };
    case "item":
      return {
        title: say("intake.item.title"),
        lead: say("intake.item.lead"),
        fields: [{ name: "shipment", kind: "choice", label: say("intake.item.title"), missing: say("intake.item.missing"), options: [...choices.items.map(({ id, name }) => ({ value: id, label: name })), dontKnow] }],
      };
    case "serial":
      return {
        title: say("intake.serial.title"),
        lead: say("intake.serial.lead"),
        fields: [{ name: "serial", kind: "text", label: say("intake.serial.serial"), longest: LONGEST.code, signs: "code", missing: say("intake.serial.missing"), autoComplete: "off" }],
      };
    case "kit":
      return {
        title: say("intake.kit.title"),
        lead: say("intake.kit.lead"),
        fields: [
          {
            name: "kit",
            kind: "select",
            label: say("intake.kit.kit"),
            missing: say("intake.kit.missing"),
            options: [...choices.kits.map(({ id, name }) => ({ value: id, label: name })), dontKnow],
          },
        ],
      };
    case "vehicle":
      return {
        title: say("intake.vehicle.title"),
        lead: say("intake.vehicle.lead"),
        fields: [
          {
            name: "vehicle",
            kind: choices.vehicles.length > 6 ? "select" : "choice",
            label: say("intake.vehicle.vehicle"),
            missing: say("intake.vehicle.missing"),
            options: [...choices.vehicles.map(({ id, name }) => ({ value: id, label: name })), { value: OTHER, label: say("intake.vehicle.other") }],
          },
          {
            name: "words",
            kind: "text",
            label: say("intake.vehicle.words"),
            longest: LONGEST.name,
            missing: say("intake.vehicle.wordsMissing"),
            shownWhen: { field: "vehicle", values: [OTHER] },
          },
          {
            name: "fuel",
            kind: "choice",
            label: say("intake.vehicle.fuel"),
            hint: say("intake.vehicle.fuelHint"),
            missing: say("intake.vehicle.fuelMissing"),
            shownWhen: { field: "vehicle", values: [OTHER] },
            options: [
              { value: "diesel", label: say("intake.vehicle.diesel") },
              { value: "petrol", label: say("intake.vehicle.petrol") },
              dontKnow,
            ],
          },
        ],
      };
    case "oil":
      return oilScreen(edition, mayBeOfPair(state.purchase) ? pairFields(state.purchase.staging, say) : [], say);
    case "fitting":
      return {
        title: say("intake.fitting.title"),
        lead: say("intake.fitting.lead"),
        fields: [
          { name: "fittedOn", kind: "date", ...optional(say("intake.fitting.fittedOn"), say), latest: today },
          {
            name: "run",
            kind: "number",
            ...optional(say("intake.fitting.run"), say),
            units: worded(RUN_UNITS, say),
            storedUnit: "km",
            min: 0,
            max: 2_000_000,
          },
          {
            name: "fitter",
            kind: "choice",
            label: say("intake.fitting.fitter"),
            missing: say("intake.fitting.fitterMissing"),
            options: [
              { value: "self", label: say(`intake.fitting.self.${asked}`) },
              { value: "garage", label: say(`intake.fitting.garage.${asked}`) },
              dontKnow,
            ],
          },
          { name: "fitterName", kind: "text", ...optional(say("intake.fitting.fitterName"), say), longest: LONGEST.name, shownWhen: { field: "fitter", values: ["garage"] } },
          { name: "fitterPlace", kind: "text", ...optional(say("intake.fitting.fitterPlace"), say), longest: LONGEST.name, shownWhen: { field: "fitter", values: ["garage"] } },
        ],
      };
    case "pictures":
      return {
        title: say("intake.pictures.title"),
        lead: say("intake.pictures.lead"),
        fields: [{ name: "words", kind: "text", ...optional(say("intake.pictures.words"), say), longest: LONGEST.words, lines: 5 }],
      };
    case "contact":
      return {
        title: say("intake.contact.title"),
        lead: say("intake.contact.lead"),
        fields: [
          { name: "name", kind: "text", label: say("intake.contact.name"), longest: LONGEST.name, missing: say("intake.contact.nameMissing"), autoComplete: "name" },
          { name: "email", kind: "email", label: say("intake.contact.email"), missing: say("intake.contact.emailMissing") },
          { name: "phone", kind: "phone", ...optional(say("intake.contact.phone"), say) },
        ],
      };
    default:
      // An edition promoted since the intake began may have retired all that was asked here.
      return { title: say("intake.nothingLeft.title", { name: screenName(screen, say) }), lead: say("intake.nothingLeft.lead"), fields: [] };
  }
}

/** The codes of the three places where oil can be. */
export const SITES = { turbine: "F01", compressor: "F02", outside: "F05" } as const satisfies Record<string, FindingCode>;

function oilScreen(edition: Edition, pair: readonly IntakeField[], say: Say): Omit<IntakeScreen, "cautions"> {
  const site = edition.findings.find(({ code }) => code === SITES.turbine);
  return {
    title: say("intake.oil.title"),
    lead: say("intake.oil.lead"),
    fields: [
      {
        name: "place",
        kind: "choice",
        drawing: true,
        label: say("intake.oil.title"),
        missing: say("intake.oil.missing"),
        ...(site ? { how: site.how } : {}),
        options: [
          { value: "turbine", label: say("intake.oil.turbine"), detail: say("intake.oil.turbineDetail"), parts: ["turbine"] },
          { value: "compressor", label: say("intake.oil.compressor"), detail: say("intake.oil.compressorDetail"), parts: ["compressor"] },
          { value: "both", label: say("intake.oil.both"), parts: ["turbine", "compressor"] },
          { value: "outside", label: say("intake.oil.outside"), detail: say("intake.oil.outsideDetail") },
          { value: "unseen", label: say("intake.oil.unseen") },
        ],
      },
      {
        name: "elsewhere",
        kind: "choice",
        label: say("intake.oil.elsewhere"),
        missing: say("intake.oil.elsewhereMissing"),
        shownWhen: { field: "place", values: ["turbine", "compressor", "outside"] },
        options: [
          { value: "dry", label: say("intake.oil.dry") },
          { value: "unseen", label: say("intake.oil.notLooked") },
        ],
      },
      ...pair,
    ],
  };
}

/** The field by which a customer says which unit of a compound pair it is, and the one for the serial of the unit that was not bought. */
export const PAIR_UNIT = "pairUnit";
export const OTHER_SERIAL = "otherSerial";
/** Said where the kit is not known: the vehicle has one unit alone. */
export const NO_PAIR = "single";

/**
 * Which unit of a compound pair it is about. The second serial is asked for where it is both, and the catalogue tells which of
 * them the first serial is of.
 */
export function pairFields(bought: Staging | null, say: Say): IntakeField[] {
  const unit: IntakeField = {
    name: PAIR_UNIT,
    kind: "choice",
    label: say("intake.pair.unit"),
    hint: say("intake.pair.hint"),
    missing: say("intake.pair.missing"),
    options: [
      { value: "large", label: say("intake.pair.large"), detail: say("intake.pair.largeDetail") },
      { value: "small", label: say("intake.pair.small"), detail: say("intake.pair.smallDetail") },
      { value: "both", label: say("intake.pair.both") },
      ...(bought === null ? [{ value: NO_PAIR, label: say("intake.pair.single") }] : []),
      { value: DONT_KNOW, label: say("answers.dontKnow") },
    ],
  };
  if (bought === null) return [unit];
  const other = say(bought === "low_pressure" ? "intake.pair.smallSerial" : "intake.pair.largeSerial");
  return [unit, { name: OTHER_SERIAL, kind: "text", ...optional(other, say), longest: LONGEST.code, signs: "code", shownWhen: { field: PAIR_UNIT, values: ["both"] } }];
}
