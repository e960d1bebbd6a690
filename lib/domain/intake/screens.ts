import type { CautionCode, Edition, FindingCode, FindingDefinition, MeasuredUnit } from "../diagnosis/knowledge";
import { CUBIC_METRES_PER, CUBIC_METRES_PER_SECOND_PER, METRES_PER, PASCALS_PER } from "../physics/user-units";
import type { Screen } from "./answers";
import { type FieldUnit, type IntakeField, type IntakeScreen, LONGEST } from "./fields";
import { FINDINGS_ASKED, isAskedAsOwner, type IntakeState } from "./questions";

/** What can be picked from the catalogue on a screen. */
export interface Choices {
  kits: readonly { id: string; name: string }[];
  vehicles: readonly { id: string; name: string }[];
  items: readonly { id: string; name: string }[];
}

export const DONT_KNOW = "unknown";
export const OTHER = "other";
const MM: FieldUnit = { value: "mm", label: "mm", factor: 1 };
/** What a run is told in; hours are kept apart from kilometres. */
export const RUN_UNITS = [
  { value: "km", label: "km", factor: 1 },
  { value: "mi", label: "miles", factor: 1.609344 },
  { value: "h", label: "hours", factor: 1 },
] as const satisfies readonly FieldUnit[];
/** A unit to type in, as so many of the stored one. */
const typed = (value: string, label: string, si: number, storedSi: number): FieldUnit => ({ value, label, factor: si / storedSi });
const pressures = (stored: "kPa" | "bar", ...others: readonly ("kPa" | "bar" | "psi" | "mbar" | "inH2O")[]): FieldUnit[] =>
  [stored, ...others].map((unit) => typed(unit, unit === "inH2O" ? "in of water" : unit, PASCALS_PER[unit], PASCALS_PER[stored]));
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
  elbows: [typed("elbows", "", 1, 1)],
};

/**
 * A screen in full: title, cautions and fields. Questions about findings are worded by the edition in force.
 *
 * @param today the latest day a date may name, `2026-11-25`
 */
export function describeScreen(screen: Screen, state: IntakeState, edition: Edition, choices: Choices, today: string): IntakeScreen {
  const findings = (FINDINGS_ASKED[screen] ?? []).flatMap((code) => edition.findings.find((finding) => finding.code === code) ?? []);
  if (findings.length > 0) return findingScreen(screen, findings);
  return { cautions: [], ...plainScreen(screen, state, edition, choices, today) };
}

/** Titles where a screen asks two findings, or where the summary needs a short name. */
export const SCREEN_NAMES: Readonly<Record<Screen, string>> = {
  who: "Who you are",
  purchase: "How to find your purchase",
  order: "Your order",
  item: "Which part of the order",
  serial: "Serial number",
  kit: "Your kit",
  vehicle: "Your vehicle",
  oil: "Where the oil is",
  amount: "How much oil, and smoke",
  since: "Since when",
  drain: "The oil drain",
  "drain-size": "Size of the drain",
  vent: "The crankcase vent",
  "vent-hose": "Size of the vent hose",
  "vent-element": "Inside the vent",
  filter: "The air filter",
  "two-stage": "One turbo or two",
  engine: "Oil level and the engine's age",
  changed: "What else was done",
  "first-start": "The first start",
  fitting: "When it was fitted, and by whom",
  pictures: "Photos and your own words",
  contact: "How to reach you",
};

function findingScreen(screen: Screen, findings: readonly FindingDefinition[]): IntakeScreen {
  const [only] = findings;
  const cautions = [...new Set(findings.flatMap((finding) => finding.cautions))].sort();
  return {
    title: findings.length === 1 && only ? only.question : SCREEN_NAMES[screen],
    cautions,
    fields: findings.map(findingField).map((field) => (field.kind === "number" ? { ...field, label: `${field.label} (optional)` } : field)),
  };
}

/** A finding as a field: choices with "I don't know", or an optional number with its unit. */
export function findingField(finding: FindingDefinition): IntakeField {
  const words = { name: finding.code, label: finding.question, hint: finding.why, how: finding.how };
  if (finding.kind === "measurement") {
    return { ...words, kind: "number", units: UNITS[finding.unit] ?? [{ value: finding.unit, label: finding.unit, factor: 1 }], storedUnit: finding.unit, what: finding.name, ...finding.plausible };
  }
  const offersDontKnow = finding.options.some(({ value }) => value === DONT_KNOW);
  return {
    ...words,
    kind: "choice",
    missing: "Choose an answer; \u201cI don\u2019t know\u201d is one",
    options: [...finding.options, ...(offersDontKnow ? [] : [{ value: DONT_KNOW, label: "I don\u2019t know, or can\u2019t see it" }])],
  };
}

function plainScreen(screen: Screen, state: IntakeState, edition: Edition, choices: Choices, today: string): Omit<IntakeScreen, "cautions"> & { cautions?: readonly CautionCode[] } {
  const isOwner = isAskedAsOwner(state.answers);
  switch (screen) {
    case "who":
      return {
        title: "Who are you?",
        lead: "It decides what we ask.",
        fields: [
          {
            name: "who",
            kind: "choice",
            label: "Who are you?",
            missing: "Choose who you are",
            options: [
              { value: "owner", label: "I own the vehicle", detail: "We ask only what you can see with the engine cold and stopped" },
              { value: "technician", label: "I work on vehicles", detail: "We also ask for measurements, if you have them" },
            ],
          },
        ],
      };
    case "purchase":
      return {
        title: "How can we find your purchase?",
        lead: "With the order or the serial number we know the rest and ask less.",
        fields: [
          {
            name: "by",
            kind: "choice",
            label: "How can we find your purchase?",
            missing: "Choose how we can find it",
            options: [
              { value: "order", label: "Order number and e-mail", detail: "Both stand in the order mail" },
              { value: "serial", label: "Serial number on the unit", detail: "On the plate of the middle or compressor housing" },
              { value: "kit", label: "I have neither", detail: "You pick the kit and the vehicle" },
            ],
          },
        ],
      };
    case "order":
      return {
        title: "Which order is it from?",
        lead: "The address must be the one the order was placed with, so that nobody else can look it up.",
        fields: [
          { name: "number", kind: "text", label: "Order number", longest: LONGEST.code, signs: "code", missing: "Write the order number", autoComplete: "off" },
          { name: "email", kind: "email", label: "E-mail address of the order", missing: "Write the e-mail address the order was placed with" },
        ],
      };
    case "item":
      return {
        title: "Which part of the order is it?",
        fields: [{ name: "shipment", kind: "choice", label: "Which part of the order is it?", missing: "Choose the one that leaks", options: choices.items.map(({ id, name }) => ({ value: id, label: name })) }],
      };
    case "serial":
      return {
        title: "What is the serial number?",
        lead: "It is stamped or printed on a plate on the unit. Leave the unit where it is; a photo from above often shows it.",
        cautions: ["S2"],
        fields: [{ name: "serial", kind: "text", label: "Serial number", longest: LONGEST.code, signs: "code", missing: "Write the serial number", autoComplete: "off" }],
      };
    case "kit":
      return {
        title: "Which kit did you buy?",
        lead: "The number stands on the box and on the fitting leaflet.",
        fields: [
          {
            name: "kit",
            kind: "select",
            label: "Kit",
            missing: "Choose the kit, or \u201cI don\u2019t know\u201d",
            options: [...choices.kits.map(({ id, name }) => ({ value: id, label: name })), { value: DONT_KNOW, label: "I don\u2019t know" }],
          },
        ],
      };
    case "vehicle":
      return {
        title: "Which vehicle is it on?",
        fields: [
          {
            name: "vehicle",
            kind: choices.vehicles.length > 6 ? "select" : "choice",
            label: "Vehicle",
            missing: "Choose the vehicle, or \u201canother\u201d",
            options: [...choices.vehicles.map(({ id, name }) => ({ value: id, label: name })), { value: OTHER, label: "Another vehicle" }],
          },
          {
            name: "words",
            kind: "text",
            label: "Make, model, engine and year",
            longest: LONGEST.name,
            missing: "Write which vehicle it is",
            shownWhen: { field: "vehicle", values: [OTHER] },
          },
          {
            name: "fuel",
            kind: "choice",
            label: "What does it burn?",
            hint: "A diesel needs a caution of its own.",
            missing: "Choose the fuel, or \u201cI don\u2019t know\u201d",
            shownWhen: { field: "vehicle", values: [OTHER] },
            options: [
              { value: "diesel", label: "Diesel" },
              { value: "petrol", label: "Petrol" },
              { value: DONT_KNOW, label: "I don\u2019t know" },
            ],
          },
        ],
      };
    case "oil":
      return oilScreen(edition);
    case "fitting":
      return {
        title: "When was it fitted, and how far has it run?",
        lead: "Leave out what you do not know.",
        fields: [
          { name: "fittedOn", kind: "date", label: "Day it was fitted (optional)", latest: today },
          {
            name: "run",
            kind: "number",
            label: "Run since then (optional)",
            units: RUN_UNITS,
            storedUnit: "km",
            min: 0,
            max: 2_000_000,
          },
          {
            name: "fitter",
            kind: "choice",
            label: "Who fitted it?",
            missing: "Choose who fitted it",
            options: [
              { value: "self", label: isOwner ? "I did" : "We did" },
              { value: "garage", label: isOwner ? "A garage or somebody else" : "Somebody else" },
              { value: DONT_KNOW, label: "I don\u2019t know" },
            ],
          },
          { name: "fitterName", kind: "text", label: "Their name (optional)", longest: LONGEST.name, shownWhen: { field: "fitter", values: ["garage"] } },
          { name: "fitterPlace", kind: "text", label: "Town (optional)", longest: LONGEST.name, shownWhen: { field: "fitter", values: ["garage"] } },
        ],
      };
    case "pictures":
      return {
        title: "Photos, and your own words",
        lead: "Both are optional. The most telling photos: the drain from the side, along its whole length; where the vent hose goes; the oil itself.",
        cautions: ["S2"],
        fields: [{ name: "words", kind: "text", label: "What happened, in your own words (optional)", longest: LONGEST.words, lines: 5 }],
      };
    case "contact":
      return {
        title: "How can we reach you?",
        lead: "We write to this address when we have looked at it, and when we need to ask.",
        fields: [
          { name: "name", kind: "text", label: "Your name", longest: LONGEST.name, missing: "Write your name", autoComplete: "name" },
          { name: "email", kind: "email", label: "E-mail address", missing: "Write your e-mail address" },
          { name: "phone", kind: "phone", label: "Telephone (optional)" },
        ],
      };
    default:
      // An edition promoted since the intake began may have retired all that was asked here.
      return { title: `${SCREEN_NAMES[screen]}: nothing to tell any more`, lead: "What we ask has changed since you began. Go on to the next question.", fields: [] };
  }
}

/** The codes of the three places where oil can be. */
export const SITES = { turbine: "F01", compressor: "F02", outside: "F05" } as const satisfies Record<string, FindingCode>;

function oilScreen(edition: Edition): IntakeScreen {
  const site = edition.findings.find(({ code }) => code === SITES.turbine);
  return {
    title: "Where do you see oil?",
    lead: "Look only with the engine off and cold: turbine and exhaust stay hot for a long time. Tap the drawing, or choose below.",
    cautions: [],
    fields: [
      {
        name: "place",
        kind: "choice",
        drawing: true,
        label: "Where do you see oil?",
        missing: "Choose where the oil is; \u201cI cannot see it\u201d is an answer too",
        ...(site ? { how: site.how } : {}),
        options: [
          { value: "turbine", label: "In the exhaust side", detail: "The turbine housing, or the pipe after it, is wet or smoking", parts: ["turbine"] },
          { value: "compressor", label: "In the air side", detail: "The compressor housing or the charge pipe is oily", parts: ["compressor"] },
          { value: "both", label: "In both", parts: ["turbine", "compressor"] },
          { value: "outside", label: "Only on the outside", detail: "Flanges, the oil feed or the drain fitting are wet" },
          { value: "unseen", label: "I cannot see it from here" },
        ],
      },
      {
        name: "elsewhere",
        kind: "choice",
        label: "And the other places?",
        missing: "Choose whether the other places are dry",
        shownWhen: { field: "place", values: ["turbine", "compressor", "outside"] },
        options: [
          { value: "dry", label: "I looked: they are dry" },
          { value: "unseen", label: "I have not looked, or cannot see" },
        ],
      },
    ],
  };
}
