export interface Random {
  /** Uniform in [0, 1). */
  next(): number
  /** Integer in [0, n). n ≥ 1 */
  below(n: number): number
  /** Uniform in [low, high). */
  between(low: number, high: number): number
  pick<T>(items: readonly T[]): T
}

/**
 * A seeded stream (xorshift128 seeded by splitmix32). Same seed, same numbers, on every machine: integer operations only.
 * @source Marsaglia, Xorshift RNGs, J. Stat. Software 8(14), 2003. Provenance: memory
 */
export function seeded(seed: number): Random {
  let s = seed >>> 0
  const split = () => {
    s = (s + 0x9e3779b9) >>> 0
    let z = s
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad)
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97)
    return (z ^ (z >>> 15)) >>> 0
  }
  let x = split(),
    y = split(),
    z = split(),
    w = split() | 1
  const next32 = () => {
    const t = x ^ (x << 11)
    x = y
    y = z
    z = w
    w = (w ^ (w >>> 19) ^ (t ^ (t >>> 8))) >>> 0
    return w >>> 0
  }
  const next = () => next32() / 4294967296
  return {
    next,
    below: (n) => Math.floor(next() * n),
    between: (low, high) => low + next() * (high - low),
    pick: (items) => items[Math.floor(next() * items.length)] as (typeof items)[number],
  }
}
