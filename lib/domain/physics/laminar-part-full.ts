import { wettedHalfAngle } from "./circular-section";

/** Panels of the integral: doubled, the flow moves by less than 1e-12 between a depth of 0.01 and 0.99. */
const PANELS = 400;
/** Beyond this many decay lengths the integrand is below the last digit of a double. */
const DECAY_LENGTHS = 45;

/**
 * Laminar flow of a part-full round line as a share of its flow at full bore and the same slope, exact: no slip at the
 * wall, no shear at the surface.
 *
 * With the speed w, lap(w) = -1, put w = h - y^2 / 2, y being the depth below the surface. Then h is harmonic, equals
 * y^2 / 2 on the wall and has no gradient across the surface, and by Green's theorem the flow is
 *
 *     Q = I - (1 / pi) Int_0^inf F(k)^2 k tanh(k b) dk,   F(k) = pi a^2 (k cosh kb - cot b sinh kb) / sinh(k pi)
 *
 * in bipolar coordinates: b half the wetted angle, a half the width of the surface, I the second moment of the section
 * about its surface, F the Fourier transform of y^2 / 2 along the wall. Full bore has Q = pi R^4 / 8.
 *
 * Source: derived here; the maximum agrees with Greenwell (1979), dissertation, Michigan State University.
 * Example: half full gives exactly 0.5, a quarter full 0.0673, and 0.861 of the bore the maximum, 1.273.
 *
 * @param depthRatio depth over bore, from 0 to 1
 */
export function laminarPartFullRatio(depthRatio: number): number {
  if (!(depthRatio >= 0 && depthRatio <= 1)) throw new Error("laminarPartFullRatio needs a depth ratio from 0 to 1");
  if (depthRatio === 0 || depthRatio === 1) return depthRatio;
  const b = wettedHalfAngle(depthRatio);
  const [sin, cos] = [Math.sin(b), Math.cos(b)];
  const segment = b - sin * cos;
  const secondMoment = (segment + 2 * sin ** 3 * cos) / 4 - (4 / 3) * cos * sin ** 3 + cos ** 2 * segment;

  const furthest = DECAY_LENGTHS / (Math.PI - b);
  const transform = (k: number) => {
    // cosh and sinh over sinh(k pi), with the growing exponentials divided out.
    const [up, down] = [Math.exp(k * (b - Math.PI)), Math.exp(-k * (b + Math.PI))];
    return (Math.PI * sin ** 2 * (k * (up + down) - (cos / sin) * (up - down))) / -Math.expm1(-2 * k * Math.PI);
  };
  const integrand = (k: number) => (k === 0 ? 0 : transform(k) ** 2 * k * Math.tanh(k * b));
  // Squared, so that the panels lie close together where the integrand is large.
  const at = (panel: number) => furthest * (panel / PANELS) ** 2;
  const widthAt = (panel: number) => (2 * furthest * panel) / PANELS;
  let sum = 0;
  for (let panel = 1; panel < PANELS; panel++) sum += (panel % 2 === 1 ? 4 : 2) * integrand(at(panel)) * widthAt(panel);
  const harmonic = sum / (3 * PANELS) / Math.PI;
  return (secondMoment - harmonic) / (Math.PI / 8);
}
