import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { makeReference, parseReference } from "@/lib/domain/claims/reference";

const bytes = fc.uint8Array({ minLength: 64, maxLength: 64 });

describe("a reference", () => {
  test("is read back however it is typed", () => {
    fc.assert(
      fc.property(bytes, (random) => {
        const reference = makeReference(random);
        expect(reference).toMatch(/^[2-9A-HJKMNP-Z]{4}-[2-9A-HJKMNP-Z]{3}-[2-9A-HJKMNP-Z]{3}$/);
        expect(parseReference(` ${reference.toLowerCase().replaceAll("-", " ")} `)).toBe(reference);
      }),
    );
  });

  test("with one wrong sign is refused", () => {
    fc.assert(
      fc.property(bytes, fc.nat(9), fc.nat(29), (random, place, step) => {
        const signs = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
        const typed = [...makeReference(random).replaceAll("-", "")];
        const right = signs.indexOf(typed[place] ?? "");
        typed[place] = signs.charAt((right + 1 + step) % signs.length);
        expect(parseReference(typed.join(""))).toBeNull();
      }),
    );
  });

  test("with two neighbours swapped is refused", () => {
    fc.assert(
      fc.property(bytes, fc.nat(7), (random, place) => {
        const typed = [...makeReference(random).replaceAll("-", "")];
        const [first = "", second = ""] = typed.slice(place, place + 2);
        fc.pre(first !== second);
        typed.splice(place, 2, second, first);
        expect(parseReference(typed.join(""))).toBeNull();
      }),
    );
  });

  test("needs enough random bytes", () => {
    expect(() => makeReference(new Uint8Array(64).fill(255))).toThrow("more random bytes");
  });

  test.each(["", "K7MP", "K7MP-4Q2-HX0", "🙂🙂🙂🙂🙂", "K7MP-4Q2-HXW-2"])("that is no reference is refused: %j", (typed) => {
    expect(parseReference(typed)).toBeNull();
  });
});
