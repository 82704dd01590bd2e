/** How long a millimetre is on this glass. */
export interface Glass {
  readonly pxPerMm: number
  /** Screen dots a pixel when it was measured: a page that is zoomed since has other pixels. */
  readonly dotsPerPx: number
}

/** Long edge of a bank card, ID-1. ISO/IEC 7810. Provenance: memory */
export const CARD_MM = 85.6
const GLOVE_MM = 15
const LEAST_TARGET_PX = 44
/** Shorter and longer than on any screen that is held or stood before. */
export const CARD_PX = { least: 200, most: 900 } as const

/** `cardPx`: how long the card was on the glass. */
export const measured = (cardPx: number, dotsPerPx: number): Glass => ({ pxPerMm: cardPx / CARD_MM, dotsPerPx })

export function glassFrom(kept: unknown): Glass | null {
  const { pxPerMm, dotsPerPx } = (kept ?? {}) as Partial<Record<keyof Glass, unknown>>
  return typeof pxPerMm === 'number' &&
    typeof dotsPerPx === 'number' &&
    dotsPerPx > 0 &&
    pxPerMm >= CARD_PX.least / CARD_MM &&
    pxPerMm <= CARD_PX.most / CARD_MM
    ? { pxPerMm, dotsPerPx }
    : null
}

/** Edge of a target that a glove hits: 15 mm of this glass, rounded up. */
export const gloveTargetPx = (glass: Glass, dotsPerPx: number): number =>
  Math.max(LEAST_TARGET_PX, Math.ceil((GLOVE_MM * glass.pxPerMm * glass.dotsPerPx) / dotsPerPx - 1e-9))

/** How far from a thing of a drawing a touch still means it: half a target; a mouse points finer. */
export function reachPx(gloves: boolean): number {
  if (!gloves) return window.matchMedia('(pointer: fine)').matches ? 9 : 22
  return Number.parseFloat(getComputedStyle(document.documentElement).getPropertyValue('--target')) / 2
}
