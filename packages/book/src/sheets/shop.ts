import { QUESTION_WORDS } from '@plugstead/engine/kernel'
import type { Block, Reader, Sheet } from '../content.ts'
import type { BookInput } from '../results.ts'
import { type BuiltBox, cautionBlocks, dealt, judgedBlocks, sheetOf } from './built.ts'
import { paperBlocks } from './shop/bench-papers.ts'
import { bendBlocks } from './shop/bending.ts'
import { billBlocks } from './shop/bill.ts'
import { cutBlocks } from './shop/cutting.ts'
import { holeBlocks } from './shop/holes.ts'
import { wireBlocks } from './shop/wiring.ts'
import { hourBlocks, stepBlocks } from './shop/work-hours.ts'

const SHEETS = {
  cuts: ['cut', 'cut-unproven', 'cut-too-long', 'cut-stock-short', 'cut-no-kerf', 'no-stock'],
  bends: ['bends', 'bend-too-near'],
  wires: ['wires'],
  holes: ['holes'],
  hours: ['hours'],
  steps: ['holds'],
} as const

/** Whose work a sheet is. */
const READERS_OF: Readonly<Record<keyof typeof SHEETS | 'rest', readonly Reader[]>> = {
  rest: [],
  cuts: ['welder', 'electrician'],
  bends: ['electrician'],
  wires: ['electrician'],
  holes: ['welder'],
  hours: [],
  steps: ['welder', 'electrician'],
}

/** What is bought, sawn, bent, pulled, drilled and done, by whom and in how many hours, of each box that is built. */
export function shopSheets(input: BookInput, built: readonly BuiltBox[]): readonly Sheet[] {
  return built.flatMap((box) => {
    const shop = input.assessment.results.shop.boxes.find((b) => b.box === box.id)
    if (shop === undefined) return []
    const of = dealt(input, box, 'shop', SHEETS)
    const sheet = (
      name: Parameters<typeof of>[0],
      head: string,
      sub: string,
      own: readonly Block[],
      sides: Sheet['sides'] = [],
    ): readonly Sheet[] =>
      sheetOf(
        'shop',
        head,
        `${box.name}: ${sub}`,
        [...cautionBlocks(of(name)), ...own, ...judgedBlocks(box, of(name))],
        sides,
      ).map((made) => ({ ...made, readers: READERS_OF[name] }))
    return [
      ...sheet('rest', QUESTION_WORDS.shop, 'what is bought, and what needs it', billBlocks(shop)),
      ...sheet('cuts', 'Cutting', 'from stock, in the order of the saw', cutBlocks(shop, box)),
      ...sheet(
        'bends',
        'Raceways: pieces, bends and marks',
        'from the datum end of the pipe, before it is bent',
        bendBlocks(shop),
      ),
      ...sheet('wires', 'Wires to cut and pull', 'lengths with their loops', wireBlocks(shop)),
      ...sheet(
        'holes',
        'Holes, cuts and pads',
        'from the datum corner of each side',
        shop.holes.flatMap(holeBlocks),
        shop.holes.map((h) => h.side),
      ),
      ...sheet('steps', 'Order of the work', 'who does it, and where nothing goes on without a signature', stepBlocks(shop)),
      ...sheet('hours', 'Hours by trade', 'never one number: low, middle, high', hourBlocks(shop)),
      ...sheetOf('shop', 'Torque, serial numbers, labels', `${box.name}: to be filled in at the bench`, paperBlocks(shop)).map(
        (made) => ({ ...made, readers: ['electrician'] as const }),
      ),
    ]
  })
}
