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
