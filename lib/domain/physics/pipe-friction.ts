/** Laminar constant of a round pipe: f = 64 / Re. */
const ROUND_PIPE = 64;

/**
 * Reynolds number: below about 2000 a flow is laminar.
 * Example: 200 l/min of water at 30 degC in a 52.5 mm bore has about 100,900.
 */
export function reynoldsNumber(velocityMS: number, hydraulicDiameterM: number, kinematicViscosityM2S: number): number {
  return (velocityMS * hydraulicDiameterM) / kinematicViscosityM2S;
}

/**
 * Darcy friction factor from laminar through transition to turbulent in one formula, without the jump of a switch. In
 * the transition it rises, as it does in pipes: there thinner oil may drain up to a sixth slower.
 *
 *     f = 8 [ (c / 8 Re)^12 + (A + B)^-1.5 ]^(1/12)
 *     A = (-2.457 ln[(7 / Re)^0.9 + 0.27 e])^16,   B = (37530 / Re)^16
 *
 * Source: S. W. Churchill, "Friction-factor equation spans all fluid-flow regimes", Chemical Engineering 84 (1977).
 * Example: Re 100,000 and a relative roughness of 0.0001 give 0.01846.
 *
 * @param laminarConstant Re times f where laminar: 64 in a round pipe, another figure in a part-full one
 */
export function darcyFriction(reynolds: number, relativeRoughness: number, laminarConstant = ROUND_PIPE): number {
  const laminar = (laminarConstant / 8 / reynolds) ** 12;
  const rough = (-2.457 * Math.log((7 / reynolds) ** 0.9 + 0.27 * relativeRoughness)) ** 16;
  const smooth = (37530 / reynolds) ** 16;
  return 8 * (laminar + (rough + smooth) ** -1.5) ** (1 / 12);
}
