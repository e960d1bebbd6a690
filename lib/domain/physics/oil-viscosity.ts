import { kelvinFromCelsius } from "./user-units";

/** Kinematic viscosity known at one temperature, as data sheets print it. */
export interface ViscosityPoint {
  temperatureC: number;
  viscosityMm2S: number;
}

/** The two points that every data sheet of an oil has, and its density. */
export interface Oil {
  at40C: ViscosityPoint;
  at100C: ViscosityPoint;
}

const walther = ({ viscosityMm2S }: ViscosityPoint) => Math.log10(Math.log10(viscosityMm2S + 0.7));
const logKelvin = (temperatureC: number) => Math.log10(kelvinFromCelsius(temperatureC));

/**
 * Kinematic viscosity of an oil at a temperature, from two known points, in m2/s: how thick the oil is in the drain.
 *
 *     log10 log10(nu + 0.7) = A - B log10 T      (nu in mm2/s, T in K)
 *
 * Source: Walther's form as standardised in ASTM D341; valid from 2 mm2/s up and above the cloud point.
 * Example: 404 mm2/s at 40 degC and 28 at 100 degC give 132.1 mm2/s at 60 degC.
 */
export function kinematicViscosityM2S(one: ViscosityPoint, other: ViscosityPoint, temperatureC: number): number {
  const slope = (walther(other) - walther(one)) / (logKelvin(other.temperatureC) - logKelvin(one.temperatureC));
  const doubleLog = walther(one) + slope * (logKelvin(temperatureC) - logKelvin(one.temperatureC));
  return (10 ** 10 ** doubleLog - 0.7) * 1e-6;
}
