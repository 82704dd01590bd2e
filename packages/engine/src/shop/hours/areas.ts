import type { BoxBody } from '../../box/index.ts'
import type { BoxBuild } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import { amount } from '../figures.ts'

export interface OutsideOf {
  readonly lengthM: number
  readonly widthM: number
  readonly heightM: number
  /** Developed over projected. */
  readonly sideRatio: number
  readonly endRatio: number
  readonly roofRatio: number
}

/**
 * Outside paint area of a box, underside left out, the door end counted flat.
 *
 *   A = 2·L·H·s side + W·H·s end + W·H + L·W·s roof
 *
 * @throws Fault `shop/area-range`
 */
export function paintAreaM2(of: OutsideOf): number {
  const { lengthM: l, widthM: w, heightM: h, sideRatio, endRatio, roofRatio } = of
  const good = [l, w, h].every((n) => n > 0 && n < 100) && [sideRatio, endRatio, roofRatio].every((n) => n >= 1 && n < 3)
  if (!good) throw new Fault('shop/area-range', of)
  return 2 * l * h * sideRatio + w * h * endRatio + w * h + l * w * roofRatio
}

export function outsideOf(body: BoxBody): OutsideOf {
  const [l, w, h] = body.outsideMm
  const ratio = (side: 'left' | 'blind end' | 'roof') => body.sides[side].corrugation?.developedRatio ?? 1
  return {
    lengthM: l / 1000,
    widthM: w / 1000,
    heightM: h / 1000,
    sideRatio: ratio('left'),
    endRatio: ratio('blind end'),
    roofRatio: ratio('roof'),
  }
}

/** Metres of weld: frames all round outside and stitched inside, collars once round, pads and ends of channel on two sides. */
export function weldM({ skin, fit }: Pick<BoxBuild, 'skin' | 'fit'>): number {
  const fixings = fit.strut.flatMap((p) => p.fixings)
  const count = (how: string) => fixings.filter((f) => f.how === how).length
  const openings = skin.openings.reduce((sum, o) => {
    if (o.frame !== null) return sum + (1 + amount('inside stitch')) * edgeM(o)
    return o.class === 'collar' ? sum + edgeM(o) : sum
  }, 0)
  return (
    openings +
    ((count('weld to pad') + count('bolt to pad')) * amount('pad weld') + count('weld to rail') * amount('strut end weld')) / 1000
  )
}

export const edgeM = (o: {
  readonly shape: 'round' | 'rectangle'
  readonly widthMm: number
  readonly heightMm: number
}): number => (o.shape === 'round' ? Math.PI * o.widthMm : 2 * (o.widthMm + o.heightMm)) / 1000
