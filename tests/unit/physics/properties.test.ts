import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { circularSection } from "@/lib/domain/physics/circular-section";
import { inletHeadM } from "@/lib/domain/physics/drain-inlet";
import { type DrainLine, type DrainOil, drainCapacityM3S, neededSlope } from "@/lib/domain/physics/gravity-drain";
import { intakeAirDemandM3S } from "@/lib/domain/physics/intake-air";
import { laminarPartFullRatio } from "@/lib/domain/physics/laminar-part-full";
import { TYPICAL_OILS } from "@/lib/domain/physics/oil-grades";
import { kinematicViscosityM2S } from "@/lib/domain/physics/oil-viscosity";
import { darcyFriction } from "@/lib/domain/physics/pipe-friction";
import { pipeLossPa } from "@/lib/domain/physics/pipe-loss";
import { kelvinFromCelsius } from "@/lib/domain/physics/user-units";
import { GAS_DYNAMIC_VISCOSITY_PA_S, isothermalInletPressurePa, isothermalOutletPressurePa, ventLossPa } from "@/lib/domain/physics/vent-hose";
import { airDensityKgM3, SEA_LEVEL_PRESSURE_PA } from "@/lib/domain/physics/air";

const anyLine: fc.Arbitrary<DrainLine> = fc.record({
  boreM: fc.double({ min: 0.002, max: 0.08, noNaN: true }),
  depthRatio: fc.constantFrom(0.25, 0.5, 0.75, 1),
  roughnessM: fc.constantFrom(0, 1.5e-6, 5e-5),
  lengthM: fc.double({ min: 0.05, max: 3, noNaN: true }),
  elbows: fc.integer({ min: 0, max: 6 }),
});
const anyOil: fc.Arbitrary<DrainOil> = fc.record({
  kinematicViscosityM2S: fc.double({ min: 2e-6, max: 1e-3, noNaN: true }),
  liquidShare: fc.double({ min: 0.2, max: 1, noNaN: true }),
});
const anySlope = fc.double({ min: 1e-3, max: 1, noNaN: true });

describe("the capacity of a drain", () => {
  it("grows with bore and slope and with fewer elbows, and falls with foam", () => {
    fc.assert(
      fc.property(anyLine, anyOil, anySlope, (line, oil, slope) => {
        const capacity = drainCapacityM3S(slope, line, oil);
        expect(capacity).toBeGreaterThan(0);
        expect(drainCapacityM3S(slope, { ...line, boreM: line.boreM * 1.05 }, oil)).toBeGreaterThan(capacity);
        expect(drainCapacityM3S(slope * 1.05, line, oil)).toBeGreaterThan(capacity);
        expect(drainCapacityM3S(slope, { ...line, elbows: line.elbows + 1 }, oil)).toBeLessThan(capacity);
        expect(drainCapacityM3S(slope, line, { ...oil, liquidShare: oil.liquidShare * 0.95 })).toBeLessThan(capacity);
      }),
      { numRuns: 300, seed: 1 },
    );
  });

  it("is the slope needed, read backwards", () => {
    fc.assert(
      fc.property(anyLine, anyOil, anySlope, (line, oil, slope) => {
        expect(neededSlope(drainCapacityM3S(slope, line, oil), line, oil) / slope).toBeCloseTo(1, 10);
      }),
      { numRuns: 300, seed: 2 },
    );
  });

  it("is none on a level or rising stretch", () => {
    const line = { boreM: 0.02, depthRatio: 0.5, roughnessM: 0, lengthM: 0.4, elbows: 0 };
    for (const slope of [0, -0.01, -1]) expect(drainCapacityM3S(slope, line, { kinematicViscosityM2S: 1e-5, liquidShare: 1 })).toBe(0);
  });

  it("falls with viscosity, but for the change to turbulent, where it loses no more than pipes do: a sixth", () => {
    fc.assert(
      fc.property(anyLine, anyOil, anySlope, (line, oil, slope) => {
        const capacity = drainCapacityM3S(slope, line, oil);
        const thicker = drainCapacityM3S(slope, line, { ...oil, kinematicViscosityM2S: oil.kinematicViscosityM2S * 1.05 });
        const { hydraulicDiameterM, areaM2 } = circularSection(line.boreM, line.depthRatio);
        const reynolds = (capacity * hydraulicDiameterM) / (areaM2 * oil.kinematicViscosityM2S);
        if (reynolds < 1500 || reynolds > 5000) expect(thicker).toBeLessThan(capacity);
        expect(thicker).toBeLessThan(capacity * 1.17);
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it("does not jump where laminar flow becomes turbulent", () => {
    const line = { boreM: 0.016, depthRatio: 0.5, roughnessM: 0, lengthM: 0.4, elbows: 0 };
    const capacities = Array.from({ length: 4000 }, (_, i) => drainCapacityM3S(0.3, line, { kinematicViscosityM2S: 1e-3 * 0.998 ** i, liquidShare: 1 }));
    for (const [i, capacity] of capacities.entries()) {
      const before = capacities[i - 1] ?? capacity;
      expect(Math.abs(capacity / before - 1)).toBeLessThan(0.0021);
    }
    let best = 0;
    for (const capacity of capacities) {
      best = Math.max(best, capacity);
      expect(capacity / best).toBeGreaterThan(5 / 6);
    }
    const reynolds = Array.from({ length: 3000 }, (_, i) => 100 * 1.002 ** i);
    for (const re of reynolds) expect(Math.abs(Math.log(darcyFriction(re * 1.002, 1e-4) / darcyFriction(re, 1e-4)))).toBeLessThan(0.006);
  });

  it("meets the table of half-full capacities that was worked out by another program", () => {
    const capacity = (boreMm: number, slope: number, mm2S: number) =>
      drainCapacityM3S(slope, { boreM: boreMm / 1000, depthRatio: 0.5, roughnessM: 0, lengthM: 1, elbows: 0 }, { kinematicViscosityM2S: mm2S * 1e-6, liquidShare: 1 }) * 60_000;
    for (const [boreMm, slope, mm2S, litresPerMinute] of [[8, 0.5, 14.5, 1.0], [10, 0.2, 14.5, 1.0], [12.7, 0.1, 14.5, 1.3], [15.9, 0.2, 14.5, 6.4], [19, 0.1, 14.5, 6.5], [19, 0.5, 14.5, 18], [15.9, 0.2, 60, 1.5]] as const) {
      expect(Math.abs(capacity(boreMm, slope, mm2S) - litresPerMinute)).toBeLessThan(litresPerMinute < 10 ? 0.06 : 0.5);
    }
  });
});

describe("the part-full ratio of laminar flow", () => {
  it("is exactly one half at half depth, and rises without a jump to full bore", () => {
    expect(laminarPartFullRatio(0.5)).toBeCloseTo(0.5, 11);
    expect(laminarPartFullRatio(0)).toBe(0);
    expect(laminarPartFullRatio(0.99999)).toBeCloseTo(1, 4);
    // Two values that finite differences gave, in a program of their own, to four digits.
    expect(laminarPartFullRatio(0.4)).toBeCloseTo(0.2741, 4);
    expect(laminarPartFullRatio(0.95)).toBeCloseTo(1.1671, 4);
  });

  it("agrees with the form on the hydraulic radius at small depths and lies below it near the crown", () => {
    const byRadius = (depth: number) => {
      const angle = 2 * Math.acos(1 - 2 * depth);
      const area = (angle - Math.sin(angle)) / (2 * Math.PI);
      return area * (1 - Math.sin(angle) / angle) ** 2;
    };
    expect(laminarPartFullRatio(0.4) / byRadius(0.4)).toBeCloseTo(1, 2);
    expect(byRadius(0.95) / laminarPartFullRatio(0.95)).toBeCloseTo(1.1, 1);
  });
});

describe("air, oil and units", () => {
  it("a vent hose holds back what Darcy and Weisbach say to 2 % below 5 % of ambient, and less beyond", () => {
    const gas = { temperatureK: kelvinFromCelsius(70), outletPressurePa: SEA_LEVEL_PRESSURE_PA };
    const density = airDensityKgM3(gas.outletPressurePa, gas.temperatureK);
    const pipe = { boreM: 0.01, lengthM: 1.5, roughnessM: 1e-6, fittings: 1.5 };
    const shares = Array.from({ length: 40 }, (_, step) => {
      const hose = { ...pipe, flowM3S: (20 * (step + 1)) / 60_000 };
      const incompressible = pipeLossPa(hose, density, GAS_DYNAMIC_VISCOSITY_PA_S / density);
      return { isLow: incompressible < 0.05 * SEA_LEVEL_PRESSURE_PA, share: ventLossPa(hose, gas) / incompressible };
    });
    for (const { isLow, share } of shares) {
      expect(share).toBeLessThan(1);
      if (isLow) expect(share).toBeGreaterThan(0.975);
    }
    expect(shares.filter(({ isLow }) => isLow).length).toBeGreaterThan(5);
    expect(shares.at(-1)?.share).toBeLessThan(0.95);
  });

  it("a gas line is the same from both ends, and one that would choke is refused", () => {
    const pipe = { boreM: 0.012, lengthM: 2, roughnessM: 1e-6, fittings: 2 };
    const outlet = { temperatureK: 340, outletPressurePa: SEA_LEVEL_PRESSURE_PA };
    const inletPressurePa = isothermalInletPressurePa(0.008, pipe, outlet);
    expect(isothermalOutletPressurePa(0.008, pipe, { temperatureK: 340, inletPressurePa })).toBeCloseTo(SEA_LEVEL_PRESSURE_PA, 3);
    expect(() => isothermalOutletPressurePa(0.05, pipe, { temperatureK: 340, inletPressurePa })).toThrow("choke");
  });

  it("boost doubles the air that an engine draws", () => {
    const engine = { displacementM3: 0.002, speedPerS: 4000 / 60, volumetricEfficiency: 0.9, compressorEfficiency: 0.7, intercooling: 0.7 };
    const ambient = { pressurePa: SEA_LEVEL_PRESSURE_PA, temperatureK: 293, intakeDepressionPa: 0 };
    const demand = intakeAirDemandM3S({ ...engine, boostPa: 1.3 * SEA_LEVEL_PRESSURE_PA }, ambient) * 3600;
    // About 450 m3/h, and 2.0 to 2.6 times the same engine without boost.
    expect(demand).toBeGreaterThan(430);
    expect(demand).toBeLessThan(470);
    const without = intakeAirDemandM3S({ ...engine, boostPa: 0 }, ambient) * 3600;
    expect(demand / without).toBeGreaterThan(2);
    expect(demand / without).toBeLessThan(2.6);
  });

  it("oil thins with heat, and typical oils lie where other sources put them", () => {
    const at = (grade: keyof typeof TYPICAL_OILS, celsius: number) => kinematicViscosityM2S(TYPICAL_OILS[grade].at40C, TYPICAL_OILS[grade].at100C, celsius) * 1e6;
    for (const [celsius, thick, thin] of [[20, 320, 176], [60, 47, 34], [90, 19, 15], [120, 9.4, 8.1]] as const) {
      expect(at("15w-40", celsius) / thick).toBeCloseTo(1, 1);
      expect(at("5w-30", celsius) / thin).toBeCloseTo(1, 1);
    }
  });

  it("the outlet opening needs more head for more oil, and 10 mm of oil for the flows of the table", () => {
    for (const [openingMm, litresPerMinute] of [[10, 1.3], [12, 1.8], [14, 2.5], [16, 3.2], [19, 4.5]] as const) {
      expect(inletHeadM(litresPerMinute / 60_000, openingMm / 1000) * 1000).toBeGreaterThan(9);
      expect(inletHeadM(litresPerMinute / 60_000, openingMm / 1000) * 1000).toBeLessThan(11);
    }
  });
});
