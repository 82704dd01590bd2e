/**
 * Solves A x = b in place by elimination with row pivoting: `a` is n×n row by row and is destroyed, `b` becomes x.
 * False when A is singular to rounding. Fills what the caller allocated.
 */
export function solveDense(n: number, a: Float64Array, b: Float64Array): boolean {
  for (let k = 0; k < n; k++) {
    let best = k
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i * n + k]!) > Math.abs(a[best * n + k]!)) best = i
    const pivot = a[best * n + k]!
    if (!(Math.abs(pivot) > 1e-300)) return false
    if (best !== k) {
      for (let j = k; j < n; j++) {
        const t = a[k * n + j]!
        a[k * n + j] = a[best * n + j]!
        a[best * n + j] = t
      }
      const t = b[k]!
      b[k] = b[best]!
      b[best] = t
    }
    for (let i = k + 1; i < n; i++) {
      const f = a[i * n + k]! / pivot
      if (f === 0) continue
      for (let j = k + 1; j < n; j++) a[i * n + j]! -= f * a[k * n + j]!
      b[i]! -= f * b[k]!
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    let sum = b[k]!
    for (let j = k + 1; j < n; j++) sum -= a[k * n + j]! * b[j]!
    b[k] = sum / a[k * n + k]!
  }
  return true
}
