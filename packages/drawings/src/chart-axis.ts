/** Round steps of an axis: 1, 2, 2.5 or 5 times a power of ten, so that at most `most` of them reach `top`. */
export function roundStep(top: number, most: number): number {
  if (!(top > 0)) return 1
  const raw = top / most
  const power = 10 ** Math.floor(Math.log10(raw))
  for (const m of [1, 2, 2.5, 5]) if (m * power >= raw * (1 - 1e-9)) return m * power
  return 10 * power
}

/** Whole decades that hold a span of positive numbers. */
export function decades(low: number, high: number): { readonly from: number; readonly to: number } {
  const from = Math.floor(Math.log10(low) + 1e-9)
  return { from, to: Math.max(from + 1, Math.ceil(Math.log10(high) - 1e-9)) }
}

/** Places along one line so that none is nearer than `apart` to the next, each as near its wish as its order allows. */
export function spread(wishes: readonly number[], apart: number, least: number, most: number): readonly number[] {
  const order = wishes.map((at, i) => ({ at, i })).sort((a, b) => a.at - b.at || a.i - b.i)
  const placed: number[] = []
  for (const { at } of order) placed.push(Math.max(at, least, placed.length === 0 ? least : placed[placed.length - 1]! + apart))
  let ceiling = most
  for (let i = placed.length - 1; i >= 0; i -= 1) {
    placed[i] = Math.min(placed[i]!, ceiling)
    ceiling = placed[i]! - apart
  }
  const out = new Array<number>(wishes.length).fill(0)
  for (const [k, { i }] of order.entries()) out[i] = placed[k]!
  return out
}
