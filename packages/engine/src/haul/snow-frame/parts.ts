import { Fault } from '../../kernel/index.ts'
import { TUBES } from '../../parts/index.ts'
import { amount, numberIn, rowOf, rowsOf } from '../shelf.ts'
import { tubeSection } from '../snow.ts'

const MM_PER_IN = 25.4
const MM_PER_FT = 304.8
const KG_M2_PER_PSF = 4.882428
const N_MM2_PER_KSI = 6.894757

/** A square tube as it counts in bending: the corners of a rolled one taken off. */
export interface Bearer {
  readonly section: string
  readonly bMm: number
  readonly tMm: number
  readonly areaMm2: number
  readonly inertiaMm4: number
  readonly sectionMm3: number
  readonly kgPerM: number
}

/** A deck, per millimetre of its width. */
export interface Deck {
  readonly deck: string
  readonly kgPerM2: number
  readonly inertiaMm4: number
  readonly sectionMm3: number
  readonly widthMm: number
  readonly depthMm: number
  readonly yieldNPerMm2: number
}

/** @throws Fault `haul/frame-section` */
export function bearerOf(section: string): Bearer {
  const tube = TUBES.find((one) => one.section === section)
  if (tube === undefined) throw new Fault('haul/frame-section', section)
  const { bMm, tMm } = tube
  const sharp = tubeSection({ widthMm: bMm, heightMm: bMm, wallMm: tMm })
  const areaMm2 = bMm ** 2 - (bMm - 2 * tMm) ** 2
  const share = amount('frame-corners')
  return {
    ...{ section, bMm, tMm, areaMm2 },
    inertiaMm4: share * sharp.inertiaMm4,
    sectionMm3: share * sharp.sectionMm3,
    kgPerM: (areaMm2 / 1e6) * amount('steel-density'),
  }
}

/** @throws Fault `haul/no-row` */
export function deckOf(deck: string): Deck {
  const row = rowOf('snow-decks', { deck })
  return {
    deck,
    kgPerM2: numberIn(row, 'mass') * KG_M2_PER_PSF,
    inertiaMm4: (numberIn(row, 'inertia') * MM_PER_IN ** 4) / MM_PER_FT,
    sectionMm3: (numberIn(row, 'section') * MM_PER_IN ** 3) / MM_PER_FT,
    widthMm: numberIn(row, 'width'),
    depthMm: numberIn(row, 'depth'),
    yieldNPerMm2: numberIn(row, 'yield') * N_MM2_PER_KSI,
  }
}

/** What a frame may be made of, from the lightest on. */
export const bearers = (): readonly Bearer[] => TUBES.map((tube) => bearerOf(tube.section))
export const decks = (): readonly Deck[] => rowsOf('snow-decks').map((row) => deckOf(String(row.deck)))

/** Seats are stubs of this tube, as high as it is wide. */
export const SEAT = 'tube 60 x 60 x 5'
