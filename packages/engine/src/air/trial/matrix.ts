/** Square matrices of the few unknowns of a fit, as rows. */
export type Matrix = readonly (readonly number[])[]

export const zeros = (size: number): number[][] => Array.from({ length: size }, () => new Array<number>(size).fill(0))

/** A⁻¹ of a symmetric positive definite matrix by Cholesky; null where it is not so to rounding: a direction that nothing tells. */
export function inverseOf(a: Matrix): Matrix | null {
  const n = a.length
  const l = zeros(n)
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = a[i]?.[j] as number
      for (let k = 0; k < j; k++) sum -= (l[i]?.[k] as number) * (l[j]?.[k] as number)
      if (i === j) {
        if (!(sum > 1e-12 * Math.abs(a[i]?.[i] as number))) return null
        ;(l[i] as number[])[i] = Math.sqrt(sum)
      } else (l[i] as number[])[j] = sum / (l[j]?.[j] as number)
    }
  const columns = Array.from({ length: n }, (_, c) => {
    const y: number[] = []
    for (let i = 0; i < n; i++) {
      let sum = i === c ? 1 : 0
      for (let k = 0; k < i; k++) sum -= (l[i]?.[k] as number) * (y[k] as number)
      y[i] = sum / (l[i]?.[i] as number)
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = y[i] as number
      for (let k = i + 1; k < n; k++) sum -= (l[k]?.[i] as number) * (y[k] as number)
      y[i] = sum / (l[i]?.[i] as number)
    }
    return y
  })
  return Array.from({ length: n }, (_, i) => columns.map((column) => column[i] as number))
}

export const product = (a: Matrix, b: Matrix): Matrix =>
  a.map((row) =>
    Array.from({ length: b[0]?.length ?? 0 }, (_, c) => row.reduce((sum, v, k) => sum + v * (b[k]?.[c] as number), 0)),
  )

export const timesVector = (a: Matrix, x: readonly number[]): number[] =>
  a.map((row) => row.reduce((sum, v, k) => sum + v * (x[k] as number), 0))
