import { ventClearM2 } from '@plugstead/engine/air'
import type { AirDesign, Opening } from '@plugstead/engine/job'
import { type Finding, THIN } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import type { BookInput } from '../results.ts'
import { col, number, quantity, right, spanOf } from '../words.ts'
import { type AirAt, sheet } from './air-sheet.ts'
import { monthsSaid } from './air-words.ts'
import { cautionBlocks, judgedBlocks, mm, SIDE_WORDS } from './built.ts'

/** One vent or fan as the shop builds it and as the yard sets it. */
export interface VentRow {
  readonly box: string
  readonly id: string
  readonly use: 'vent' | 'fan'
  readonly side: Opening['side']
  /** From the left edge of the side as seen from outside and from the underside of the box, to its middle; null: not answered. */
  readonly fromLeftMm: number | null
  readonly upMm: number | null
  readonly aboveGroundMm: number | null
  readonly shape: Opening['shape']
  readonly widthMm: number
  readonly heightMm: number
  readonly meshMm: number | null
  readonly hood: boolean
  /** Through its mesh, after a season of dirt and clean. */
  readonly clearM2: { readonly low: number; readonly high: number }
  /** Share that stays open in winter, and in which months that is; null: the months are not known. A fan's hole has no slide. */
  readonly winterFrac: number
  readonly winterMonths: readonly number[] | null
  readonly what: string
}

/** Vents and fans of the boxes that are built. */
export function ventRows(input: BookInput): readonly VentRow[] {
  const { design, assessment } = input
  return design.builds.flatMap((build) => {
    const { air } = build
    const result = assessment.results.air?.boxes.find((b) => b.box === build.box)
    const placed = assessment.results.skin.boxes.find((b) => b.box === build.box)?.openings ?? []
    const cut = build.skin.openings.filter((o) => o.use === 'vent' || o.use === 'fan')
    const middleMm = cut.reduce((sum, o) => sum + o.atMm[2], 0) / Math.max(1, cut.length)
    return cut.map((o): VentRow => {
      const at = placed.find((p) => p.id === o.id)
      const use = o.use === 'fan' && air.fan !== null ? 'fan' : 'vent'
      return {
        ...{ box: build.box, id: o.id, use, side: o.side, shape: o.shape, widthMm: o.widthMm, heightMm: o.heightMm },
        ...{ fromLeftMm: at?.fromLeftMm ?? null, upMm: at?.upMm ?? null, aboveGroundMm: at?.aboveGroundMm ?? null },
        ...{ meshMm: o.meshMm, hood: o.hood, clearM2: ventClearM2(o) },
        winterFrac: use === 'fan' ? 1 : (result?.openings?.find((v) => v.id === o.id)?.winterFrac ?? air.winterOpenFrac),
        winterMonths: result?.winterMonths ?? null,
        what: ventWords(o, use, cut.length < 2 ? null : o.atMm[2] > middleMm),
      }
    })
  })
}

/** What a vent is for, by where it sits among the others. */
function ventWords(o: Opening, use: 'vent' | 'fan', high: boolean | null): string {
  if (use === 'fan') return 'blows air out; what it draws comes in by the vents'
  if (high === null) return 'the only one: air passes both ways, and little of it'
  const was = o.use === 'fan' ? 'hole of a fan that is left out: ' : ''
  return high
    ? `${was}high: lets warm and damp air out by its height over the low one`
    : `${was}low: lets cool air in, wherever the high one draws it`
}

/** Summer and winter position in words. */
export function positionWords({ use, winterFrac, winterMonths }: Pick<VentRow, 'use' | 'winterFrac' | 'winterMonths'>): {
  readonly summer: string
  readonly winter: string
} {
  if (use === 'fan') return { summer: 'as the fan runs', winter: 'as the fan runs' }
  if (winterFrac >= 1) return { summer: 'open', winter: 'open' }
  const months =
    winterMonths === null
      ? 'in the cold months'
      : winterMonths.length === 0
        ? 'in no month: none is below freezing'
        : monthsSaid(winterMonths)
  return {
    summer: 'open',
    winter: `${winterFrac <= 0 ? 'shut' : `slide at ${number(Math.round(winterFrac * 100))}${THIN}%`}, ${months}`,
  }
}

const ELECTRIC = 'Before a heater or a fan is wired, opened or set: isolate, lock, prove dead. A licensed electrician does it.'
const WINTER =
  'Set the slides from the ground or a safe stand, never from a roof with frost or snow on it: what hangs there falls without warning.'

/** Each vent with its place, its size and its two positions; fan, heater, hood and what else is built against heat and damp. */
export function ventSheets(at: AirAt, findings: readonly Finding[]): readonly Sheet[] {
  const rows = ventRows(at.input).filter((v) => v.box === at.box.id)
  const { air } = at.box.build
  const slides = rows.some((v) => v.winterFrac < 1)
  const electric = air.fan !== null || air.heater !== null
  const sides = [...new Set(rows.map((v) => v.side))]
  const schedule = sheet(
    at.box,
    'Vent schedule',
    'vents, fan, heater, hood, as built and as set',
    [
      ...(slides ? [{ k: 'strip' as const, text: WINTER }] : []),
      ...ventTable(rows),
      ...(electric ? [{ k: 'strip' as const, text: ELECTRIC }] : []),
      ...cautionBlocks(findings),
      { k: 'head', text: 'Set points, and what else keeps it dry and cool' },
      { k: 'facts', rows: measureRows(air) },
      ...judgedBlocks(at.box, findings),
    ],
    ['welder', 'electrician', 'customer'],
  )
  return [sides.length === 0 ? schedule : { ...schedule, sides }]
}

function ventTable(rows: readonly VentRow[]): readonly Block[] {
  if (rows.length === 0) return [{ k: 'para', text: 'There is no vent and no fan.' }]
  return [
    {
      ...{ k: 'table', small: true },
      columns: [
        col('opening', 15),
        col('side', 16),
        right('from left, mm', 13),
        right('up, mm', 11),
        right('size, mm', 19),
        right('clear, cm²', 20),
        col('hood, mesh', 16),
        col('summer', 14),
        col('winter', -1),
        col('what it is for', -1.2),
      ],
      rows: rows.map((v): Inline[] => {
        const { summer, winter } = positionWords(v)
        return [
          [['b', v.id]],
          SIDE_WORDS[v.side],
          v.fromLeftMm === null ? '–' : mm(v.fromLeftMm),
          v.upMm === null ? '–' : mm(v.upMm),
          v.shape === 'round' ? `ø ${number(v.widthMm)}` : `${number(v.widthMm)} × ${number(v.heightMm)}`,
          [spanOf({ low: Math.round(v.clearM2.low * 1e4), high: Math.round(v.clearM2.high * 1e4) }, '')],
          `${v.hood ? 'hood' : 'no hood'}, ${v.meshMm === null ? 'no mesh' : `mesh ${number(v.meshMm)}${THIN}mm`}`,
          summer,
          winter,
          v.what,
        ]
      }),
    },
    {
      ...{ k: 'para', small: true },
      text: 'From the left edge of the side as seen from outside, and from the underside of the box, to the middle of the opening. Clear: what is open through the mesh, after a season of dirt and clean.',
    },
  ]
}

function measureRows(air: AirDesign): readonly (readonly [Inline, Inline])[] {
  const foam = (thicknessM: number): string => (thicknessM > 0 ? quantity(thicknessM * 1000, 'mm') : 'none')
  return [
    ['fan', fanWords(air)],
    ['heater', heaterWords(air)],
    [
      'drip hood',
      air.dripHood ? 'over all gear that hangs inside; it falls away from the gear, and nothing is fixed through it' : 'none',
    ],
    ['roof painted, walls painted', `${air.roofPaint}; ${air.wallPaint}`],
    ['second roof', air.secondRoof ? 'yes, with an open gap under it' : 'none'],
    ['foam under the roof, on the walls', `${foam(air.roofFoamM)}; ${foam(air.wallFoamM)}`],
    ...(air.roofFoamM > 0 || air.wallFoamM > 0
      ? [['rails and posts', air.bridgesFoamed ? 'foamed too, no steel left bare' : 'bare: the first frost sits there'] as const]
      : []),
    ['floor', air.floorPainted ? 'painted against water' : 'as it is'],
  ]
}

export function fanWords({ fan }: AirDesign): string {
  if (fan === null) return 'none'
  const dry = fan.byHumidity ? '; runs also while the air outside is drier' : ''
  const sun = fan.solar ? '; driven by a panel: no sun, no flow, so it never runs at night' : ''
  return `${quantity(fan.powerW, 'W')}; on above ${quantity(fan.onAboveC, '°C')}${dry}${sun}`
}

export function heaterWords({ heater }: AirDesign): string {
  if (heater === null) return 'none'
  const where = heater.at === 'cabinet' ? 'in the cabinet of the gear' : 'in the room'
  const damp = heater.humidistat ? '; humidistat: on too while the gear is near the dew point' : '; no humidistat'
  return `${quantity(heater.powerW, 'W')}, ${where}; on below ${quantity(heater.onBelowC, '°C')}${damp}`
}
