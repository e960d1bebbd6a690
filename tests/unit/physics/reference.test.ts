import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { AIR_GAS_CONSTANT_J_KG_K, airDensityKgM3, SEA_LEVEL_PRESSURE_PA } from "@/lib/domain/physics/air";
import { ROLL_BAD_DEG, slopeOfAngle } from "@/lib/domain/physics/attitude";
import { circularSection } from "@/lib/domain/physics/circular-section";
import { drownedInletFlowM3S } from "@/lib/domain/physics/drain-inlet";
import { restrictorFlowM3S } from "@/lib/domain/physics/feed-restrictor";
import { drainCapacityM3S } from "@/lib/domain/physics/gravity-drain";
import { type Ambient, compressorOutletK, portMassFlowKgS, portVolumeFlowM3S, pressureRatio } from "@/lib/domain/physics/intake-air";
import { laminarPartFullRatio } from "@/lib/domain/physics/laminar-part-full";
import { headOfOilM } from "@/lib/domain/physics/oil-head";
import { kinematicViscosityM2S } from "@/lib/domain/physics/oil-viscosity";
import { darcyFriction, reynoldsNumber } from "@/lib/domain/physics/pipe-friction";
import { meanVelocityMS, pipeLossPa } from "@/lib/domain/physics/pipe-loss";
import { nosePlayM } from "@/lib/domain/physics/shaft-play";
import { CUBIC_METRES_PER_SECOND_PER, kelvinFromCelsius, METRES_PER, PASCALS_PER, RADIANS_PER_DEGREE } from "@/lib/domain/physics/user-units";
import { GAS_DYNAMIC_VISCOSITY_PA_S, isothermalOutletPressurePa } from "@/lib/domain/physics/vent-hose";

type Given = (name: string) => number;
interface Case {
  id: string;
  model: string;
  inputs: Record<string, number | string>;
  expected: number;
  tolerance: number;
}

// Each case names its source and what its tolerance covers: the rounding of the source, not the sloppiness of a model.
const { cases } = JSON.parse(readFileSync(new URL("../../reference/physics.json", import.meta.url), "utf8")) as { cases: Case[] };

const L_MIN = CUBIC_METRES_PER_SECOND_PER["l/min"];
const MM = METRES_PER.mm;
const MM2_S = 1e-6;

const point = (temperatureC: number, viscosityMm2S: number) => ({ temperatureC, viscosityMm2S });
const ambient = (of: Given): Ambient => ({ pressurePa: of("ambient_kpa") * 1000, temperatureK: 293, intakeDepressionPa: of("inlet_vacuum_kpa") * 1000 });

function ventHose(of: Given): number {
  const boreM = of("bore_mm") * MM;
  const hose = { flowM3S: of("flow_l_min") * L_MIN, boreM, lengthM: of("length_m"), roughnessM: of("relative_roughness") * boreM, fittings: of("minor_k") };
  const density = airDensityKgM3(of("ambient_kpa") * 1000, kelvinFromCelsius(of("temperature_c")));
  return pipeLossPa(hose, density, GAS_DYNAMIC_VISCOSITY_PA_S / density);
}

function airLine(of: Given): number {
  const inlet = SEA_LEVEL_PRESSURE_PA + of("gauge_pressure_kpa") * 1000;
  const massFlow = (of("flow_std_m3_min") / 60) * airDensityKgM3(SEA_LEVEL_PRESSURE_PA, kelvinFromCelsius(of("standard_temperature_c")));
  const pipe = { boreM: of("bore_mm") * MM, lengthM: of("length_m"), roughnessM: of("roughness_mm") * MM, fittings: 0 };
  return (inlet - isothermalOutletPressurePa(massFlow, pipe, { temperatureK: kelvinFromCelsius(of("temperature_c")), inletPressurePa: inlet })) / 1000;
}

function pipeLoss(of: Given): number {
  const pipe = { flowM3S: of("flow_l_min") * L_MIN, boreM: of("bore_mm") * MM, lengthM: of("length_m"), roughnessM: of("roughness_mm") * MM, fittings: 0 };
  return pipeLossPa(pipe, of("density_kg_m3"), of("kinematic_viscosity_mm2_s") * MM2_S);
}

function pipeLossWithValve(of: Given): number {
  const pipe = { flowM3S: of("flow_m3_h") / 3600, boreM: of("bore_mm") * MM, lengthM: of("length_m"), roughnessM: 0, fittings: of("minor_k") };
  return pipeLossPa(pipe, of("density_kg_m3"), of("dynamic_viscosity_pa_s") / of("density_kg_m3"));
}

function drain(depthRatio: (of: Given) => number, roughness: (of: Given) => number) {
  return (of: Given) => {
    const boreM = of("bore_mm") * MM;
    const line = { boreM, depthRatio: depthRatio(of), roughnessM: roughness(of) * circularSection(boreM, depthRatio(of)).hydraulicDiameterM, lengthM: 1, elbows: 0 };
    return drainCapacityM3S(of("slope_fall_per_length"), line, { kinematicViscosityM2S: of("kinematic_viscosity_mm2_s") * MM2_S, liquidShare: 1 });
  };
}

/** Liquid that a creeping drain passes with a share of gas in it, over what it passes without. */
function aerationDerate(of: Given): number {
  const line = { boreM: 0.0127, depthRatio: 0.5, roughnessM: 0, lengthM: 1, elbows: 0 };
  const capacity = (liquidShare: number) => drainCapacityM3S(0.01, line, { kinematicViscosityM2S: 1e-4, liquidShare });
  return capacity(1 - of("gas_fraction")) / capacity(1);
}

function mostOfLaminar(): number {
  const depths = Array.from({ length: 2001 }, (_, i) => i / 2000);
  return Math.max(...depths.map(laminarPartFullRatio));
}

const viscosity = (of: Given, at40: boolean) =>
  (at40
    ? kinematicViscosityM2S(point(40, of("viscosity_40c_mm2_s")), point(100, of("viscosity_100c_mm2_s")), of("temperature_c"))
    : kinematicViscosityM2S(point(of("t1_c"), of("viscosity_t1_mm2_s")), point(of("t2_c"), of("viscosity_t2_mm2_s")), of("temperature_c"))) / MM2_S;

const reynolds = (of: Given) => reynoldsNumber(meanVelocityMS(of("flow_l_min") * L_MIN, of("bore_mm") * MM), of("bore_mm") * MM, of("kinematic_viscosity_mm2_s") * MM2_S);

/** How the product answers each model, in the words and units of the file. */
const ANSWERS: Readonly<Record<string, (of: Given, id: string) => number>> = {
  "drain.laminar-full": (of) => drain(() => 1, () => 0)(of) / L_MIN,
  "drain.laminar-partial-ratio": (of) => laminarPartFullRatio(of("depth_ratio")),
  "drain.laminar-partial-ratio-maximum": mostOfLaminar,
  "drain.section-geometry": (of) => circularSection(of("bore_mm") * MM, of("depth_ratio")).hydraulicRadiusM,
  "drain.turbulent-partial": drain((of) => of("depth_ratio"), (of) => of("relative_roughness_on_hydraulic_diameter")),
  "friction.laminar": (of) => darcyFriction(of("reynolds"), 0),
  "friction.churchill-1977": (of) => darcyFriction(of("reynolds"), of("relative_roughness")),
  "friction.smooth-pipe": (of) => darcyFriction(reynolds(of), of("relative_roughness")),
  "flow.reynolds": reynolds,
  "flow.mean-velocity": (of) => meanVelocityMS(of("flow_l_min") * L_MIN, of("bore_mm") * MM),
  "pipe.pressure-drop": pipeLoss,
  "pipe.pressure-drop-with-minor-losses": pipeLossWithValve,
  "drain.inlet-orifice": (of) => drownedInletFlowM3S(of("opening_mm") * MM, of("head_mm") * MM, of("discharge_coefficient")) / L_MIN,
  "drain.aeration-derate": aerationDerate,
  "crankcase.oil-head": (of) => headOfOilM(of("crankcase_pressure_kpa") * 1000, of("oil_density_kg_m3")) / MM,
  "units.inch-water-to-kpa": (of) => (of("pressure_inH2O") * PASCALS_PER.inH2O) / PASCALS_PER.kPa,
  "units.cfh-to-lpm": (of) => (of("blowby_ft3_h") * CUBIC_METRES_PER_SECOND_PER["ft3/h"]) / L_MIN,
  "units.inch-to-mm": (of, id) => (of(id.startsWith("play-axial") ? "axial_play_in" : "radial_play_in") * METRES_PER.in) / MM,
  "vent.pressure-drop": airLine,
  "vent.pressure-drop-incompressible": ventHose,
  "intake.volume-flow": (of) => portVolumeFlowM3S(of("displacement_l") / 1000, of("speed_rpm") / 60, of("volumetric_efficiency")) * 60,
  "intake.pressure-ratio": (of) => pressureRatio(of("boost_kpa") * 1000, ambient(of)),
  "intake.compressor-outlet-temperature": (of) =>
    compressorOutletK(kelvinFromCelsius(of("inlet_temperature_c")), of("pressure_ratio"), of("compressor_efficiency"), of("exponent")) - kelvinFromCelsius(0),
  "intake.density": (of) => airDensityKgM3(of("pressure_abs_kpa") * 1000, kelvinFromCelsius(of("temperature_c")), of("molar_mass_g_mol") / 1000),
  "intake.mass-flow": (of) =>
    portMassFlowKgS(
      portVolumeFlowM3S(of("displacement_l") / 1000, of("speed_rpm") / 60, of("volumetric_efficiency")),
      of("charge_pressure_abs_kpa") * 1000,
      kelvinFromCelsius(of("charge_temperature_c")),
    ) * 1000,
  "oil.viscosity": (of, id) => viscosity(of, id === "visc-d341-41"),
  "feed.orifice": (of, id) => {
    const pressurePa = of("differential_kpa") * 1000;
    return id === "feed-orifice-47"
      ? restrictorFlowM3S(of("orifice_mm") * MM, pressurePa, of("flow_coefficient_incl_approach"), of("density_kg_m3")) * 1000
      : restrictorFlowM3S(of("orifice_mm") * MM, pressurePa, of("discharge_coefficient"), of("density_kg_m3")) / L_MIN;
  },
  "shaft.nose-play": (of) => nosePlayM(of("bearing_diametral_clearance_mm"), of("overhang_mm"), of("bearing_span_mm")),
  "install.roll-limit": () => ROLL_BAD_DEG,
  "install.vertical-fall": (of) => of("straight_line_length_mm") * slopeOfAngle(of("angle_below_horizontal_deg") * RADIANS_PER_DEGREE),
};

/** Models of the file that are no part of the product, and why. */
const NOT_OURS: Readonly<Record<string, string>> = {
  "drain.manning-ratio": "Manning's formula is for water in rough channels; oil in a drain is laminar or nearly so",
  "channel.manning-section-factor": "likewise",
  "friction.colebrook": "Churchill's one formula stands in for every regime; agreement is tested beside",
  "friction.haaland": "likewise",
  "friction.swamee-jain": "likewise",
  "blowby.per-power": "the power of the engine is not asked for; the published limit in litres per minute is used",
  "minor-loss.sudden-enlargement": "fittings of a drain are counted as elbows; nobody measures a gasket's hole beside its line",
  "intake.restriction-scaling": "a filter is held by its rated flow; no reading brings a restriction from one flow to another",
  "oil.density": "nobody asks for an oil's density: heads take that of hot oil",
  "atmosphere.pressure": "nobody asks for the height; what a filter passes is rated near sea level",
  "atmosphere.density": "likewise",
  "oil.sae-grade-limit": "the grade on the can stands for a typical oil of it, not for the limits of the grade",
  "oil.iso-vg-limit": "industrial grades: no engine is filled with them",
  "life.weibull-cdf": "time to failure is judged by circumstances, and counted in the reports, not here",
  "life.weibull-hazard-ratio": "likewise",
  "evidence.posterior": "inference, tested with the diagnosis",
};

describe("physics agrees with published and independent figures", () => {
  const ours = cases.filter(({ model }) => model in ANSWERS);

  it("in every case of the file but those of models that are not the product's", () => {
    expect(cases.filter(({ model }) => !(model in ANSWERS)).map(({ model }) => model).filter((model) => !(model in NOT_OURS))).toEqual([]);
    expect(ours).toHaveLength(42);
  });

  it.each(ours)("$id: $model", ({ id, model, inputs, expected, tolerance }) => {
    const given: Given = (name) => {
      const value = inputs[name];
      if (typeof value !== "number") throw new Error(`${id} gives no ${name}`);
      return value;
    };
    const got = ANSWERS[model]?.(given, id) ?? Number.NaN;
    expect(Math.abs(got - expected)).toBeLessThanOrEqual(tolerance);
  });

  it("and Churchill's friction with Colebrook's within 1 %", () => {
    const colebrook = cases.find(({ model }) => model === "friction.colebrook");
    const of = (name: string) => Number(colebrook?.inputs[name]);
    expect(darcyFriction(of("reynolds"), of("relative_roughness")) / (colebrook?.expected ?? Number.NaN)).toBeCloseTo(1, 2);
  });

  it("gas at the molar constant of air", () => {
    expect(AIR_GAS_CONSTANT_J_KG_K).toBeCloseTo(287.053, 2);
  });
});
