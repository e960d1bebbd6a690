import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { amountsInUnits, editionInUnits } from "@/lib/domain/intake/amounts-in-units";
import { sayIn } from "@/lib/messages/words";

const english = (text: string) => amountsInUnits(text, "imperial", sayIn("en"));
const german = (text: string) => amountsInUnits(text, "imperial", sayIn("de"));

describe("amounts in a text", () => {
  test("stay as they are written in metric units", () => {
    expect(amountsInUnits("longer than 60 cm", "metric", sayIn("en"))).toBe("longer than 60 cm");
  });

  test.each([
    ["is it longer than 60 cm?", "is it longer than 24 in?"],
    ["8 mm holds up half a metre of oil", "0.31 in holds up 20 in of oil"],
    ["Later, within 5,000 km or 100 hours", "Later, within 3,100 miles or 100 hours"],
    ["a restrictor of 1.0 to 1.5 mm", "a restrictor of 0.039 to 0.059 in"],
    ["6.2 kPa at most", "25 in of water at most"],
    ["2 m3/h, 5W-40, 3 minutes, 12 mmHg", "2 m3/h, 5W-40, 3 minutes, 12 mmHg"],
  ])("are turned: %s", (metric, imperial) => {
    expect(english(metric)).toBe(imperial);
  });

  test("are read and written as the language writes numbers", () => {
    expect(german("nach mehr als 5.000 km oder 1,5 mm")).toMatch(/^nach mehr als 3\.100 .+ oder 0,059 .+$/);
  });
});

test("no text of the edition that a customer reads names a metric amount once it is in imperial units", () => {
  const edition = editionInUnits(edition1, "imperial", sayIn("en"));
  const asked = edition.findings.filter(({ observers }) => observers.includes("customer"));
  const texts = [...edition.causes.flatMap(({ plainName, advice }) => [plainName, advice]), ...asked.flatMap(({ question, why, how, options }) => [question, why, how, ...options.map(({ label }) => label)])];
  expect(texts.filter((text) => /\d\s?(mm|cm|m|km|kPa|bar|litres?)\b/.test(text))).toEqual([]);
});
