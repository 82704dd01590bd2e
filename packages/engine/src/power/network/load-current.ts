import type { LoadModel } from './model.ts'

/**
 * Factor g of the current a load takes, I = S*·V·g(|V|): 1/Vn² (Z), 1/(Vn·|V|) (I), 1/|V|² (P).
 * Its slope dg/d(|V|²) is `loadSlope`.
 */
export function loadFactor(model: LoadModel, nominalV: number, squareV2: number): number {
  if (model === 'P') return 1 / squareV2
  if (model === 'I') return 1 / (nominalV * Math.sqrt(squareV2))
  return 1 / (nominalV * nominalV)
}

export function loadSlope(model: LoadModel, nominalV: number, squareV2: number): number {
  if (model === 'P') return -1 / (squareV2 * squareV2)
  if (model === 'I') return -0.5 / (nominalV * squareV2 * Math.sqrt(squareV2))
  return 0
}
