import type { Verdict } from '@plugstead/engine/kernel'
import type { LineMeaning, Weight } from './lines.ts'
import { circle, type Item, line, mark, type Point, partOf, type Scene, text } from './scene.ts'
import type { SymbolName, SymbolSet } from './symbols/index.ts'

export interface OneLineEnd {
  /** Tag letters and volts, “G4C 115.5 V”. */
  readonly words: string
  readonly kind: 'heater' | 'motor' | 'load'
  readonly cord: boolean
  /** Shown where it does not hold. */
  readonly verdict: Verdict
  /** Id of what is drawn, for whoever touches it. */
  readonly of?: string
}

export interface OneLineBranch {
  /** “1”, “13+15”. */
  readonly ways: string
  /** “20 A”. */
  readonly device: string
  readonly deviceKind: 'breaker' | 'fuse'
  /** “12 AWG”. */
  readonly wire: string
  readonly legs: readonly string[]
  readonly currentA: number
  readonly outlet: string
  /** No plug between: the wire runs on to the load. */
  readonly wired?: boolean
  readonly ends: readonly OneLineEnd[]
  /** Id of the circuit, for whoever touches it. */
  readonly of?: string
}

export interface OneLine {
  readonly widthMm: number
  readonly symbols: SymbolSet
  /** From the source down to the main, in order: what stands on the line and what is written beside it. */
  readonly trunk: readonly { readonly symbol: SymbolName; readonly words: readonly string[] }[]
  readonly trunkA: number
  readonly bus: readonly string[]
  readonly earthed: boolean
  readonly legs: readonly string[]
  readonly branches: readonly OneLineBranch[]
}

/** Branches side by side: as many as need no further row, at the widest pitch. */
const NARROWEST_MM = 11
const WIDEST_MM = 13.6
/** What stands beside the branches: earth at the left, air at the right. */
const BESIDE_MM = 16
function perRow({ branches, widthMm }: Pick<OneLine, 'branches' | 'widthMm'>): number {
  const room = widthMm - BESIDE_MM
  const most = Math.max(1, Math.floor(room / NARROWEST_MM))
  const even = Math.ceil(branches.length / Math.ceil(branches.length / most || 1))
  return Math.max(1, Math.min(most, Math.floor(room / WIDEST_MM)), even)
}
const TRUNK_GAP_MM = 3
/** From the bus to the words at a machine, and a letter of those words, both with room to spare. */
const TO_WORDS_MM = 43
const LETTER_MM = 1.2
const FIRST_MM = 8

/** Source at the top, machines at the foot, volts written at each node. Heavier line: more ampere. Legs: solid, long dash, dash dot. */
export function oneLine(diagram: OneLine): readonly Scene[] {
  const rows: (readonly OneLineBranch[])[] = []
  const across = perRow(diagram)
  for (let i = 0; i < diagram.branches.length; i += across) rows.push(diagram.branches.slice(i, i + across))
  return rows.length === 0 ? [scene(diagram, [], true, 0)] : rows.map((row, i) => scene(diagram, row, i === 0, i))
}

/** Four steps of line weight. */
export function weightOf(currentA: number): Weight {
  if (currentA <= 16) return 1
  if (currentA <= 32) return 2
  return currentA <= 80 ? 3 : 4
}

function scene(diagram: OneLine, row: readonly OneLineBranch[], first: boolean, index: number): Scene {
  const items: Item[] = []
  const busX = 6
  const busEnd = diagram.widthMm - 2
  let y = FIRST_MM - 6
  if (first) {
    const x = 26
    for (const part of diagram.trunk) {
      const symbol = diagram.symbols.symbols[part.symbol]
      items.push(...symbol.draw([x, y]))
      for (const [k, words] of part.words.entries()) items.push(text([x + 7, y + 2.6 + k * 3.2], words, { strong: k === 0 }))
      const height = Math.max(symbol.heightMm, part.words.length * 3.2)
      items.push(
        line(
          [
            [x, y + symbol.heightMm],
            [x, y + height + TRUNK_GAP_MM],
          ],
          `ampere ${weightOf(diagram.trunkA)}`,
        ),
      )
      y += height + TRUNK_GAP_MM
    }
  } else {
    items.push(text([busX, y + 2.4], 'bus, continued', { strong: true }))
    y += 5
  }
  items.push(
    line(
      [
        [busX, y],
        [busEnd, y],
      ],
      'ampere 4',
    ),
  )
  if (first) {
    // Stand clear of the trunk: words of the bus at the right end.
    for (const [k, words] of diagram.bus.entries())
      items.push(text([busEnd, y - 2 - (diagram.bus.length - 1 - k) * 3.2], words, { anchor: 'end', strong: k === 0 }))
    if (diagram.earthed) {
      items.push(
        line(
          [
            [busX, y],
            [busX, y + 3],
          ],
          'symbol',
        ),
        ...diagram.symbols.symbols.earth.draw([busX, y + 3]),
      )
      items.push(circle([busX, y], 0.7, 'symbol', 'solid'))
    }
  }
  const left = 14
  const pitch = (busEnd - left) / perRow(diagram)
  for (const [i, branch] of row.entries())
    items.push(...branchItems(diagram, branch, [left + i * pitch + 2, y], pitch).map(within(branch.of)))
  const said = row.map((b) => `way ${b.ways}, ${b.device}: ${b.ends.map((e) => e.words).join(', ') || b.outlet}`).join('; ')
  const longest = Math.max(0, ...row.map((b) => Math.max(0, ...wordsOf(b, pitch).map((w) => w.length))))
  return {
    sizeMm: [diagram.widthMm, y + TO_WORDS_MM + longest * LETTER_MM],
    said: `One-line diagram${index === 0 ? '' : ', continued'}. ${diagram.bus.join(', ')}. ${said}.`,
    items,
  }
}

function branchItems(diagram: OneLine, branch: OneLineBranch, [x, top]: Point, pitch: number): readonly Item[] {
  const style = lineOf(diagram.legs, branch)
  const device = diagram.symbols.symbols[branch.deviceKind]
  const outlet = diagram.symbols.symbols.outlet
  const items: Item[] = [
    circle([x, top], 0.6, 'symbol', 'solid'),
    line(
      [
        [x, top],
        [x, top + 3],
      ],
      style,
    ),
    ...device.draw([x, top + 3]),
  ]
  let y = top + 3 + device.heightMm
  items.push(
    text([x + 3, top + 3.6], branch.ways, { strong: true }),
    text([x + 3, top + 6.8], branch.device),
    text([x + 3, top + 10], branch.legs.join('')),
  )
  items.push(
    line(
      [
        [x, y],
        [x, y + 13],
      ],
      style,
    ),
  )
  items.push(text([x + 3, y + 6.2], branch.wire))
  items.push(text([x + 3, y + 9.4], branch.outlet))
  y += 13
  if (branch.ends.length === 0) return items
  if (branch.wired === true)
    items.push(
      line(
        [
          [x, y],
          [x, y + outlet.heightMm],
        ],
        style,
      ),
    )
  else items.push(...outlet.draw([x, y]))
  y += outlet.heightMm
  const shown = branch.ends.slice(0, mostEnds(pitch))
  const words = wordsOf(branch, pitch)
  const step = 4
  if (shown.length > 1)
    items.push(
      line(
        [
          [x, y + 1],
          [x + (shown.length - 1) * step, y + 1],
        ],
        'ampere 1',
      ),
    )
  items.push(
    line(
      [
        [x, y],
        [x, y + 1],
      ],
      'symbol',
    ),
  )
  for (const [k, end] of shown.entries()) {
    const at = x + k * step
    const drawn: Item[] = []
    drawn.push(
      line(
        [
          [at, y + 1],
          [at, y + 8],
        ],
        end.cord ? 'cord' : style,
      ),
    )
    drawn.push(...diagram.symbols.symbols[end.kind === 'motor' || end.kind === 'heater' ? 'load' : end.kind].draw([at, y + 8]))
    const marked = end.verdict !== 'holds'
    if (marked) drawn.push(mark([at, y + 13], end.verdict))
    drawn.push(text([at - 0.9, y + (marked ? 15.4 : 12)], words[k]!, { turnDeg: 90 }))
    items.push(...drawn.map(within(end.of)))
  }
  return items
}

/** Part of the circuit, unless it is already part of one of its ends. */
const within =
  (of: string | undefined) =>
  (item: Item): Item =>
    'of' in item ? item : { ...item, ...partOf(of) }

const mostEnds = (pitch: number): number => Math.max(1, Math.floor(pitch / 4))

/** Words at the machines of a branch; where there are more than the column holds, the last says how many. */
function wordsOf(branch: OneLineBranch, pitch: number): readonly string[] {
  const most = mostEnds(pitch)
  const rest = branch.ends.length - most
  return branch.ends.slice(0, most).map((e, k) => (rest > 0 && k === most - 1 ? `${e.words}, and ${rest} more` : e.words))
}

/** A leg by its line: first solid, second long dash, third dash dot; across legs solid. */
function lineOf(legs: readonly string[], branch: OneLineBranch): LineMeaning {
  const weight = weightOf(branch.currentA)
  const at = branch.legs.length === 1 ? legs.indexOf(branch.legs[0]!) : 0
  if (at === 1) return `ampere ${weight} long dash`
  return at === 2 ? `ampere ${weight} dash dot` : `ampere ${weight}`
}
