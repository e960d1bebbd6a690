/**
 * A small random number generator with a seed, so that one seed makes one demo. mulberry32 by Tommy Ettinger, public
 * domain, from memory. Good enough for a story, never for a secret.
 */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** A stream of its own for one theme, so that a change in one theme leaves the others as they were. */
  static forTheme(seed: number, theme: string): Random {
    // FNV-1a, 32 bit.
    let hash = 0x811c9dc5 ^ seed;
    for (const sign of theme) hash = Math.imul(hash ^ sign.charCodeAt(0), 0x01000193);
    return new Random(hash);
  }

  /** Uniform in 0..1, 1 excluded. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), this.#state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }

  chance(probability: number): boolean {
    return this.next() < probability;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** A whole number, both ends included. */
  whole(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.next());
  }

  pick<T>(items: readonly T[]): T {
    const item = items[Math.floor(items.length * this.next())];
    if (item === undefined) throw new Error("Random.pick needs at least one item");
    return item;
  }

  /** A key with a chance in proportion to its weight. */
  weighted<K extends string>(weights: Readonly<Partial<Record<K, number>>>): K {
    const entries = Object.entries(weights) as [K, number][];
    let left = this.next() * entries.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [key, weight] of entries) {
      left -= weight;
      if (left < 0) return key;
    }
    throw new Error("Random.weighted needs a positive weight");
  }

  /** Box-Muller. */
  normal(mean: number, spread: number): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.next()));
    return mean + spread * radius * Math.cos(2 * Math.PI * this.next());
  }

  logNormal(median: number, sigma: number): number {
    return median * Math.exp(this.normal(0, sigma));
  }

  exponential(mean: number): number {
    return -mean * Math.log(1 - this.next());
  }

  bytes(count: number): Uint8Array {
    return Uint8Array.from({ length: count }, () => this.whole(0, 255));
  }

  uuid(): string {
    const bytes = this.bytes(16);
    bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
    bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
    const hex = Buffer.from(bytes).toString("hex");
    return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
  }
}
