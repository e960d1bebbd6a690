/** Standard acceleration of free fall, m/s2 (by definition). */
export const GRAVITY_M_S2 = 9.80665;
