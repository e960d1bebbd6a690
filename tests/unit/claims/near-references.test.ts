import fc from "fast-check";
import { expect, test } from "vitest";
import { nearReferences } from "@/lib/domain/claims/near-references";
import { makeReference } from "@/lib/domain/claims/reference";

const SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
const someReference = fc.uint8Array({ minLength: 64, maxLength: 64, max: 247 }).map(makeReference);

test("a reference with one sign misread is among those it may have meant", () => {
  fc.assert(
    fc.property(someReference, fc.nat(9), fc.constantFrom(...SIGNS, "0", "O", "1", "I", "L"), (reference, place, sign) => {
      const bare = reference.replaceAll("-", "");
      const typed = bare.slice(0, place) + sign + bare.slice(place + 1);
      fc.pre(typed !== bare);
      expect(nearReferences(typed.toLowerCase())).toContain(reference);
    }),
  );
});

test("two neighbours swapped are found too", () => {
  fc.assert(
    fc.property(someReference, fc.nat(8), (reference, place) => {
      const bare = reference.replaceAll("-", "");
      const typed = bare.slice(0, place) + bare.charAt(place + 1) + bare.charAt(place) + bare.slice(place + 2);
      fc.pre(typed !== bare);
      expect(nearReferences(typed)).toContain(reference);
    }),
  );
});

test("they are few, and there are none for what is right or no reference at all", () => {
  fc.assert(
    fc.property(someReference, (reference) => {
      expect(nearReferences(reference)).toEqual([]);
      expect(nearReferences(`0${reference.replaceAll("-", "").slice(1)}`).length).toBeLessThanOrEqual(20);
    }),
  );
  expect(nearReferences("level drain")).toEqual([]);
  expect(nearReferences("T62-118840")).toEqual([]);
});
