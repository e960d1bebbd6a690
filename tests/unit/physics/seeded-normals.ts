/**
 * Standard normal deviates from a seed, for simulations in tests: a linear congruential generator of 48 bits (the one of
 * POSIX drand48) through the method of Box and Muller.
 */
export function seededNormals(seed: number): () => number {
  let state = (BigInt(seed) << 16n) + 0x330en;
  const uniform = () => {
    state = (state * 0x5deece66dn + 0xbn) % (1n << 48n);
    return (Number(state) + 0.5) / 2 ** 48;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
