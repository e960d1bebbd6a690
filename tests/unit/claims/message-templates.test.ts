import { describe, expect, test } from "vitest";
import { fillTemplate, openGaps, TEMPLATE_GAPS, type TemplateFacts, unknownGaps } from "@/lib/domain/claims/message-templates";
import { messageTemplateSchema } from "@/lib/inputs/message-template";

const FACTS: TemplateFacts = { name: "Ada", reference: "K7A-4821-HXQ", kit: "Tarn 62", vehicle: "Hauler", "check asked": "Run of the drain", "promised day": null, "return number": null, "seller phone": "+00 1" };

describe("a message template", () => {
  test("takes the facts of the claim, and keeps as a gap what the claim does not know", () => {
    expect(fillTemplate("{name}, by {promised day}: {check asked}.", FACTS)).toEqual({ text: "Ada, by {promised day}: Run of the drain.", open: ["promised day"] });
  });

  test("fills every gap of the closed set", () => {
    const full = Object.fromEntries(TEMPLATE_GAPS.map((gap) => [gap, `<${gap}>`])) as TemplateFacts;
    expect(fillTemplate(TEMPLATE_GAPS.map((gap) => `{${gap}}`).join(" "), full)).toEqual({ text: TEMPLATE_GAPS.map((gap) => `<${gap}>`).join(" "), open: [] });
  });

  test("fills nothing twice: what a customer's name holds is no gap", () => {
    expect(fillTemplate("{name}", { ...FACTS, name: "{kit}" }).text).toBe("{kit}");
  });

  test("reads a gap with spaces about it", () => {
    expect(fillTemplate("{ name }", FACTS).text).toBe("Ada");
    expect(openGaps("By { promised day }")).toEqual(["promised day"]);
  });

  test("names what no claim can fill", () => {
    expect(unknownGaps("{name} {turbo} {turbo} {}")).toEqual(["turbo", ""]);
  });

  test("is refused at the field that has an unknown gap, in the words of both", () => {
    const refused = messageTemplateSchema.safeParse({ name: "One", english: "Dear {customer}", german: "Guten Tag {name}" });
    expect(refused.error?.issues.map(({ path, message }) => [path[0], message])).toEqual([["english", expect.stringContaining("{customer}")]]);
    expect(messageTemplateSchema.safeParse({ name: "One", english: " ", german: "Guten Tag" }).error?.issues.map(({ path }) => path[0])).toEqual(["english"]);
  });
});
