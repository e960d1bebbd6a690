import { describe, expect, test } from "vitest";
import { CLAIM_EVENTS, stagesBefore, transition } from "@/lib/domain/claims/lifecycle";
import { CLAIM_STAGES, type ClaimStage } from "@/lib/domain/claims/stages";

describe("the life of a claim", () => {
  test("can be walked from draft to settled, and reopened by an appeal", () => {
    const walked = (["file", "ask_for_check", "answer_checks", "authorise_return", "inspect_unit", "decide", "settle", "appeal", "decide"] as const).reduce<ClaimStage>(
      (stage, event) => {
        const next = transition(stage, event);
        if (!next.ok) throw new Error(`${event} refused in ${stage}`);
        return next.stage;
      },
      "draft",
    );
    expect(walked).toBe("decided");
  });

  test("refuses what is not a legal event, naming both", () => {
    expect(transition("settled", "decide")).toEqual({ ok: false, reason: "not-legal-here", event: "decide", stage: "settled" });
    expect(transition("draft", "decide").ok).toBe(false);
    expect(transition("filed", "file").ok).toBe(false);
  });

  test("ends where it ends: nothing leads out of cleared and withdrawn, out of lapsed only an answer after all, and out of merged only taking it apart again", () => {
    for (const stage of ["cleared", "withdrawn"] as const) {
      expect(CLAIM_EVENTS.filter((event) => transition(stage, event).ok)).toEqual([]);
    }
    expect(CLAIM_EVENTS.filter((event) => transition("lapsed", event).ok)).toEqual(["answer_late"]);
    expect(CLAIM_EVENTS.filter((event) => transition("merged", event).ok)).toEqual(["take_apart"]);
  });

  test("reaches every stage but draft by some event", () => {
    const reached = new Set(CLAIM_EVENTS.flatMap((event) => stagesBefore(event).map((stage) => transition(stage, event)).flatMap((next) => (next.ok ? [next.stage] : []))));
    expect([...CLAIM_STAGES].filter((stage) => !reached.has(stage))).toEqual(["draft"]);
  });
});
