/** The next larger of sizes that ascend; beyond the largest, that one. */
export const sizeUp = (sizes: readonly number[], wanted: number): number =>
  sizes.find((s) => s >= wanted - 1e-9) ?? sizes[sizes.length - 1]!
