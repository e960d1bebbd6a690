import type { ImportKind } from "./kinds";

/** One thing a row tells; its key is the column of the database, or what leads to it. */
export interface ImportField {
  readonly key: string;
  /** As the sample file heads its column. */
  readonly name: string;
  readonly type: "text" | "email" | "country" | "choice" | "measure" | "year" | "date";
  readonly isRequired: boolean;
  /** Other headings that mean the same, in small letters and digits alone. */
  readonly synonyms: readonly string[];
  /** The words of a choice, in small letters and digits alone, and the value each stands for. */
  readonly choices?: Readonly<Record<string, string>>;
  /** What the first rows of the sample file say. */
  readonly examples: readonly [string, string];
}

const kitCode: ImportField = { key: "kit", name: "Kit", type: "text", isRequired: true, synonyms: ["kitcode", "kitnumber", "kitno", "article", "articlenumber", "articleno", "sku", "partnumber", "itemnumber", "item"], examples: ["KX-100", "KX-100"] };
const supplier: ImportField = { key: "supplier", name: "Supplier", type: "text", isRequired: false, synonyms: ["suppliercode", "supplierno", "suppliernumber", "vendor", "vendorcode", "maker", "madeby"], examples: ["EX-WORKS", "EX-WORKS"] };
const make = { key: "make", name: "Make", type: "text", synonyms: ["vehiclemake", "manufacturer", "brand", "marque"], examples: ["Examplar", "Examplar"] } as const;
const model = { key: "model", name: "Model", type: "text", synonyms: ["vehiclemodel", "vehicle", "car"], examples: ["Fieldway", "Fieldway"] } as const;
const engine = { key: "engine", name: "Engine", type: "text", synonyms: ["vehicleengine", "motor", "enginecode"], examples: ["2.4 D", "3.0 D"] } as const;
const yearFrom = { key: "year_from", name: "Built from", type: "year", synonyms: ["yearfrom", "fromyear", "firstyear", "startyear", "modelyear", "year", "from"], examples: ["2010", "2015"] } as const;

/** The fields of each kind of file, in the order of the sample file. */
export const IMPORT_FIELDS: Readonly<Record<ImportKind, readonly ImportField[]>> = {
  suppliers: [
    { key: "code", name: "Code", type: "text", isRequired: true, synonyms: ["supplier", "suppliercode", "supplierno", "suppliernumber", "vendor", "vendorcode", "vendornumber", "number"], examples: ["EX-WORKS", "EX-HOSE"] },
    { key: "name", name: "Name", type: "text", isRequired: true, synonyms: ["suppliername", "vendorname", "company"], examples: ["Example Works", "Example Hose"] },
    { key: "email", name: "Mail for claims", type: "email", isRequired: true, synonyms: ["email", "mail", "emailaddress", "contact", "claimsemail"], examples: ["quality@example.com", "claims@example.org"] },
    { key: "address", name: "Address for claims", type: "text", isRequired: false, synonyms: ["address", "postaladdress", "street"], examples: ["Works Lane 3, 20095 Hamburg, Germany", ""] },
    { key: "answer_within_days", name: "Answers within, days", type: "measure", isRequired: false, synonyms: ["answerwithin", "answerdays", "days", "deadline"], examples: ["30", "45"] },
    { key: "retired_on", name: "Bought from until", type: "date", isRequired: false, synonyms: ["boughtuntil", "retiredon", "retired"], examples: ["", ""] },
  ],
  turbo_models: [
    { key: "code", name: "Code", type: "text", isRequired: true, synonyms: ["turbo", "turbocode", "turbomodel", "modelcode", "partnumber", "articlenumber", "sku", "number"], examples: ["TX40", "TX50"] },
    { key: "name", name: "Name", type: "text", isRequired: true, synonyms: ["description", "title", "designation"], examples: ["Example turbo 40", "Example turbo 50"] },
    { key: "bearing", name: "Bearing", type: "choice", isRequired: true, synonyms: ["bearingtype"], choices: { journal: "journal", journalbearing: "journal", plain: "journal", sleeve: "journal", ball: "ball", ballbearing: "ball" }, examples: ["journal", "ball"] },
    { key: "staging", name: "Stage", type: "choice", isRequired: false, synonyms: ["staging", "stages"], choices: { single: "single", lowpressure: "low_pressure", low: "low_pressure", lp: "low_pressure", highpressure: "high_pressure", high: "high_pressure", hp: "high_pressure" }, examples: ["single", "low pressure"] },
    { key: "axial_play_min_mm", name: "Axial play from, mm", type: "measure", isRequired: true, synonyms: ["axialplayminmm", "axialplaymin", "axialplayfrom", "axialmin", "minaxialplay"], examples: ["0.03", "0.04"] },
    { key: "axial_play_max_mm", name: "Axial play to, mm", type: "measure", isRequired: true, synonyms: ["axialplaymaxmm", "axialplaymax", "axialplayto", "axialmax", "maxaxialplay", "axialplay"], examples: ["0.10", "0.13"] },
    { key: "radial_play_max_mm", name: "Radial play to, mm", type: "measure", isRequired: true, synonyms: ["radialplaymaxmm", "radialplaymax", "radialplayto", "radialmax", "maxradialplay", "radialplay"], examples: ["0.16", "0.18"] },
    { key: "drain_bore_mm", name: "Drain bore, mm", type: "measure", isRequired: true, synonyms: ["drainboremm", "drainbore", "drain", "oildrain", "draindiameter"], examples: ["16", "19"] },
    { key: "replacement_cost", name: "Cost of another one", type: "measure", isRequired: false, synonyms: ["replacementcost", "unitcost", "costprice", "purchaseprice", "cost"], examples: ["480", ""] },
    supplier,
  ],
  kits: [
    kitCode,
    { key: "name", name: "Name", type: "text", isRequired: true, synonyms: ["kitname", "description", "title", "designation"], examples: ["Fieldway kit", "Fieldway kit"] },
    { key: "turbo_model", name: "Turbo model", type: "text", isRequired: false, synonyms: ["turbo", "turbocode", "turbomodelcode", "turbocharger"], examples: ["TX40", "TX40"] },
    { ...supplier, examples: ["EX-HOSE", "EX-HOSE"] },
    { key: "revision", name: "Revision", type: "text", isRequired: true, synonyms: ["rev", "kitrevision", "version", "issue"], examples: ["A", "B"] },
    { key: "introduced_on", name: "Introduced on", type: "date", isRequired: true, synonyms: ["introduced", "introducedon", "validfrom", "releasedon", "released", "since", "date"], examples: ["2024-02-01", "2025-06-16"] },
    { key: "change", name: "Change", type: "text", isRequired: false, synonyms: ["changes", "whatchanged", "changenote", "note", "remark"], examples: ["First issue.", "Longer drain line."] },
    { key: "retired_on", name: "Last sold on", type: "date", isRequired: false, synonyms: ["retiredon", "retired", "lastsold", "discontinued", "discontinuedon", "soldto"], examples: ["", ""] },
  ],
  vehicles: [
    { ...make, isRequired: true },
    { ...model, isRequired: true },
    { ...engine, isRequired: true },
    { key: "fuel", name: "Fuel", type: "choice", isRequired: true, synonyms: ["fueltype"], choices: { diesel: "diesel", d: "diesel", petrol: "petrol", gasoline: "petrol", gas: "petrol", p: "petrol" }, examples: ["diesel", "diesel"] },
    { ...yearFrom, isRequired: true },
    { key: "year_to", name: "Built to", type: "year", isRequired: false, synonyms: ["yearto", "toyear", "lastyear", "endyear", "to", "until"], examples: ["2016", ""] },
  ],
  fitments: [
    kitCode,
    { ...make, isRequired: true },
    { ...model, isRequired: true },
    { ...engine, isRequired: true },
    { ...yearFrom, isRequired: false },
  ],
  shipments: [
    { key: "order_number", name: "Order", type: "text", isRequired: true, synonyms: ["ordernumber", "orderno", "orderid", "ordernr", "invoice", "invoicenumber"], examples: ["X-10001", "X-10002"] },
    { key: "customer_email", name: "E-mail", type: "email", isRequired: true, synonyms: ["customeremail", "emailaddress", "mail", "customermail", "customeremailaddress"], examples: ["runa@example.org", "garage@example.com"] },
    { key: "customer_name", name: "Customer", type: "text", isRequired: true, synonyms: ["customername", "customer", "buyer", "name", "company"], examples: ["Runa Example", "Example Garage"] },
    { key: "country", name: "Country", type: "country", isRequired: true, synonyms: ["countrycode", "shiptocountry", "destination"], examples: ["DE", "NL"] },
    { key: "placed_on", name: "Ordered on", type: "date", isRequired: false, synonyms: ["orderedon", "orderdate", "placedon", "placed", "ordered", "dateoforder"], examples: ["2026-03-02", "2026-03-03"] },
    { key: "shipped_on", name: "Shipped on", type: "date", isRequired: true, synonyms: ["shipdate", "shipped", "shippingdate", "shipmentdate", "dispatchdate", "dispatched", "sentdate", "dateshipped", "date"], examples: ["2026-03-03", "2026-03-05"] },
    kitCode,
    { key: "revision", name: "Revision", type: "text", isRequired: false, synonyms: ["rev", "kitrevision", "version"], examples: ["A", ""] },
    { key: "serial", name: "Serial", type: "text", isRequired: false, synonyms: ["serialnumber", "serialno", "serialnr", "unitserial", "sn", "turboserial"], examples: ["TX40-260001", ""] },
    { key: "batch", name: "Batch", type: "text", isRequired: false, synonyms: ["batchnumber", "batchno", "lot", "lotnumber"], examples: ["2609", ""] },
    { key: "turbo_model", name: "Turbo model", type: "text", isRequired: false, synonyms: ["turbo", "turbocode", "turbomodelcode", "turbocharger"], examples: ["TX40", ""] },
    { ...make, isRequired: false },
    { ...model, isRequired: false },
    { ...engine, isRequired: false },
    { ...yearFrom, isRequired: false },
  ],
};

/** A field of a kind by its key. */
export function importField(kind: ImportKind, key: string): ImportField {
  const field = IMPORT_FIELDS[kind].find((one) => one.key === key);
  if (!field) throw new Error(`importField needs a field of ${kind}, not ${key}`);
  return field;
}
