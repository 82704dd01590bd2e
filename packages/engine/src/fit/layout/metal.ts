import type { Pin, StrutPiece } from '../../job/index.ts'
import { SECTION, SECTION_DOUBLE } from './rules.ts'

export type Metal = 'steel' | 'aluminium'

const IN_ALUMINIUM: Readonly<Record<string, string>> = {
  [SECTION]: 'aluminium 1-5/8 x 1-5/8 (41 x 41, 2.7 mm)',
  [SECTION_DOUBLE]: 'aluminium back to back 1-5/8 x 3-1/4',
}

export const metalPath = (box: string): string => `strut.${box}.metal`

/** Metal of the channel of one box: what a person pinned, else steel. Null: the pin is no metal. */
export function metalOf(pins: readonly Pick<Pin, 'path' | 'value'>[], box: string): Metal | null {
  const pin = pins.find((p) => p.path === metalPath(box))
  if (pin === undefined) return 'steel'
  return pin.value === 'steel' || pin.value === 'aluminium' ? pin.value : null
}

/** The section of this outline in that metal. */
export const sectionIn = (metal: Metal, section: string): string =>
  (metal === 'aluminium' ? IN_ALUMINIUM[section] : Object.keys(IN_ALUMINIUM).find((s) => IN_ALUMINIUM[s] === section)) ?? section

/** The same channel in that metal. Aluminium is not welded to steel: it is bolted to studs on pads. */
export const strutIn = (metal: Metal, strut: readonly StrutPiece[]): readonly StrutPiece[] =>
  metal === 'steel'
    ? strut
    : strut.map((piece) => ({
        ...piece,
        section: sectionIn(metal, piece.section),
        fixings: piece.fixings.map((f) => (f.how.startsWith('weld') ? { ...f, how: 'bolt to pad' as const } : f)),
      }))
