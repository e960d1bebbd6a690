import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { overtakenOfJoined, standingOfJoined } from "@/lib/domain/claims/joined-findings";

const found = (code: string, observer: string, day: number) => ({ code, observer, observedAt: new Date(Date.UTC(2026, 0, day)) });

describe("findings of two complaints about one thing", () => {
  test("of one observer the newer stands, of different observers both", () => {
    const [old, newer, bench] = [found("F12", "customer", 1), found("F12", "customer", 3), found("F12", "bench", 2)];
    expect(standingOfJoined([newer, old, bench])).toEqual([bench, newer]);
    expect(overtakenOfJoined([newer, old, bench])).toEqual([old]);
  });

  test("of one claim alone all stand, as the claim keeps one of each observer", () => {
    const findings = [found("F12", "customer", 1), found("F13", "customer", 1), found("F12", "technician", 2)];
    expect(standingOfJoined(findings)).toEqual(findings);
    expect(overtakenOfJoined(findings)).toEqual([]);
  });

  test("every code and observer that was told stands once, by its newest word, whatever the order", () => {
    const any = fc.record({ code: fc.constantFrom("F12", "F13", "F14"), observer: fc.constantFrom("customer", "technician"), observedAt: fc.date({ min: new Date(0), max: new Date(1e12), noInvalidDate: true }) });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 12 }), (findings) => {
        const standing = standingOfJoined(findings);
        expect(standing.length + overtakenOfJoined(findings).length).toBe(findings.length);
        for (const { code, observer } of findings) {
          const same = (finding: (typeof findings)[number]) => finding.code === code && finding.observer === observer;
          const [stands, ...more] = standing.filter(same);
          expect(more).toEqual([]);
          expect(stands?.observedAt.getTime()).toBe(Math.max(...findings.filter(same).map(({ observedAt }) => observedAt.getTime())));
        }
      }),
    );
  });
});
