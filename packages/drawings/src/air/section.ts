import type { AirSpell } from '@plugstead/engine/air'
import { ROOF_HOLDS_KG_PER_M2 } from '@plugstead/engine/air'
import type { AirDesign, Side } from '@plugstead/engine/job'
import { THIN } from '@plugstead/engine/kernel'
import { area, box, type Item, line, many, type Point, type Scene, text } from '../scene.ts'
import { timeAt, timeWords } from './clock.ts'
import type { AirBoxSize } from './faces.ts'
import { LINE_MM, paragraph, wrapped } from './plot.ts'
import { type AirUnits, degreesSaid, filmSaid, fixed, flowSaid, lengthSaid, massSaid, windSaid } from './units.ts'

export interface AirSection {
  readonly widthMm: number
  readonly units: AirUnits
  readonly spell: AirSpell
  /** Hour of the spell. */
  readonly atH: number
  readonly sizeM: AirBoxSize
  readonly air: AirDesign
  /** Long side the gear hangs on. */
  readonly gearSide: 'left' | 'right'
  /** The box is drawn no higher than this. */
  readonly mostMm?: number
}

const EDGE_MM = 41
const EDGE_NARROW_MM = 27
const STEEL_MM = 0.8
/** Things stand off a wall by the letters that run up it. */
const WALL_MM = 5.2
/** Below the box: blocks and ground. */
const UNDER_MM = 8
const ABOVE_MM = 6
/** More of it where a second roof stands over the first. */
const SECOND_ROOF_MM = 6
/** Thickest that a film is drawn, at the weight from which it falls. */
const FILM_MM = 4

interface Frame {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly k: number
  readonly h: number
}

/**
 * A cut across the box, seen from the door end, at one hour: vents with arrows by what passes them, temperatures of every layer, heater, gear and
 * hood, what hangs under the roof and what falls.
 */
export function airSection(of: AirSection): AirSectionScene {
  const { spell, atH, widthMm, sizeM } = of
  if (!(atH >= 0 && atH < spell.hoursCount))
    return { places: [], sizeMm: [widthMm, 8], said: `${spell.what}: no such hour.`, items: [text([0, 5], 'No hour is chosen.')] }
  const head = paragraph(headWords(of), [0, 3], widthMm)
  const edge = widthMm < 140 ? EDGE_NARROW_MM : EDGE_MM
  const k = Math.min((widthMm - 2 * edge) / sizeM.widthM, (of.mostMm ?? 78) / sizeM.heightM)
  const left = (widthMm - sizeM.widthM * k) / 2
  const top = head.nextMm + ABOVE_MM + (of.air.secondRoof ? SECOND_ROOF_MM : 0)
  const at: Frame = { left, right: left + sizeM.widthM * k, top, bottom: top + sizeM.heightM * k, k, h: atH }
  const vents = ventsOf(of)
  const foot = paragraph(footWords(of, vents), [0, at.bottom + UNDER_MM + 6], widthMm)
  return {
    places: vents.filter((v) => v.side === 'left' || v.side === 'right').map((v) => placeOf(v, at)),
    sizeMm: [widthMm, foot.nextMm],
    said: `Section at ${headWords(of)} ${footWords(of, vents)}`,
    items: [
      ...head.items,
      ...roofFilm(of, at),
      ...neutralItems(vents, at),
      ...shellItems(of, at, vents),
      ...gearItems(of, at),
      ...heaterItems(of, at),
      ...airItems(of, at),
      ...vents.flatMap((vent, i) => ventItems(vent, of, at, vents, i)),
      ...foot.items,
    ],
  }
}

/** Where a vent stands in its wall, so that a hand finds it. */
export interface VentPlace {
  readonly id: string
  readonly xMm: number
  readonly yMm: number
  /** Height of its clear opening, and a metre of the box, as drawn. */
  readonly heightMm: number
  readonly perMMm: number
}

export type AirSectionScene = Scene & { readonly places: readonly VentPlace[] }

const placeOf = ({ id, side, upM, heightM }: VentFlow, { left, right, bottom, k }: Frame): VentPlace => ({
  ...{ id, xMm: side === 'left' ? left - STEEL_MM / 2 : right + STEEL_MM / 2, yMm: bottom - 1.6 - upM * k },
  ...{ heightMm: heightM * k, perMMm: k },
})

interface VentFlow {
  readonly id: string
  readonly side: Side
  readonly upM: number
  readonly heightM: number
  readonly areaM2: number
  readonly fan: boolean
  /** Into the box is positive; null: not kept. */
  readonly flowM3S: number | null
}

function ventsOf({ air, spell, atH }: AirSection): readonly VentFlow[] {
  return air.vents.map((v) => ({
    ...{ id: v.id, side: v.side, upM: v.upMm / 1000, heightM: v.heightMm / 1000, fan: v.fan },
    areaM2: (v.widthMm * v.heightMm) / 1e6,
    flowM3S: spell.openings.find((o) => o.id === v.id)?.flowM3S[atH] ?? null,
  }))
}

function headWords({ spell, atH, units }: AirSection): string {
  const cloud = spell.cloudPct[atH]
  return `${timeWords(timeAt(spell, atH + 1))}: outside ${degreesSaid(spell.outsideC[atH] ?? Number.NaN, units)}, wind ${windSaid(spell.windMPerS[atH] ?? Number.NaN, units)}, sun ${fixed(spell.sunWPerM2[atH] ?? Number.NaN, 0)}${THIN}W/m²${cloud === undefined || !Number.isFinite(cloud) ? '' : `, cloud over ${fixed(cloud, 0)} % of the sky`}.`
}

function footWords({ spell, atH, units, air }: AirSection, vents: readonly VentFlow[]): string {
  const inflow = spell.inflowKgPerH[atH]
  const known = vents.some((v) => v.flowM3S !== null)
  const level = neutralLevelM(vents)
  const foams = [
    ...(air.roofFoamM > 0 ? [`${lengthSaid(air.roofFoamM, units)} under the roof`] : []),
    ...(air.wallFoamM > 0 ? [`${lengthSaid(air.wallFoamM, units)} on the walls`] : []),
  ]
  return [
    inflow === undefined
      ? 'What comes in from outside is not known.'
      : `Outside air that comes in, leaks too: ${massSaid(inflow, units)} an hour.`,
    ...(vents.length === 0 ? ['There is no vent.'] : known ? [] : ['The run does not keep what passes each vent.']),
    ...(level === null
      ? []
      : [
          `Chain line, ${lengthSaid(level, units)} over the floor: inside and outside press alike there, as the two flows tell, wind left aside.`,
        ]),
    ...(foams.length === 0 ? [] : [`Foam: ${foams.join(', ')}.`]),
  ].join(' ')
}

/** Steel, foam, second roof, floor, blocks and ground; the temperatures of both faces of each. */
function shellItems({ spell, air, units }: AirSection, at: Frame, vents: readonly VentFlow[]): readonly Item[] {
  const { left, right, top, bottom, k, h } = at
  const t = (side: Side, face: 'insideC' | 'outsideC'): string => degreesSaid(spell.faces[side][face][h] ?? Number.NaN, units)
  const foam = (m: number): number => (m > 0 ? Math.max(1.4, m * k) : 0)
  const [roofFoam, wallFoam] = [foam(air.roofFoamM), foam(air.wallFoamM)]
  const ground = bottom + UNDER_MM
  const middle = (left + right) / 2
  const items: Item[] = []
  if (roofFoam > 0) items.push(box([left, top], right - left, roofFoam, 'hair', 'back slant'))
  if (wallFoam > 0)
    items.push(
      box([left, top + roofFoam], wallFoam, bottom - top - roofFoam, 'hair', 'back slant'),
      box([right - wallFoam, top + roofFoam], wallFoam, bottom - top - roofFoam, 'hair', 'back slant'),
    )
  items.push(
    box([left - STEEL_MM, top - STEEL_MM], right - left + 2 * STEEL_MM, STEEL_MM, 'none', 'solid'),
    box([left - STEEL_MM, top], STEEL_MM, bottom - top, 'none', 'solid'),
    box([right, top], STEEL_MM, bottom - top, 'none', 'solid'),
    box([left, bottom - 1.6], right - left, 1.6, 'opening', 'upright wide'),
    box([left + 3, bottom], 7, UNDER_MM - 1, 'symbol', 'blank'),
    box([right - 10, bottom], 7, UNDER_MM - 1, 'symbol', 'blank'),
    line([[left - 22, ground - 1] as Point, [right + 22, ground - 1] as Point], 'opening'),
  )
  if (air.secondRoof) {
    items.push(line([[left - 4, top - 5.4] as Point, [right + 4, top - 5.4] as Point], 'section'))
    items.push(text([left - 5, top - 4.4], 'second roof', { anchor: 'end' }))
  }
  // Roof: outer face above, under it its underside, below what hangs there.
  items.push(
    text([middle, top - STEEL_MM - (air.secondRoof ? 1.1 : 1.4)], `roof outside ${t('roof', 'outsideC')}`, {
      anchor: 'middle',
      halo: true,
    }),
  )
  const dry = (spell.faces.roof.filmGPerM2[h] ?? 0) < 0.5
  items.push(
    text([middle, top + roofFoam + (dry ? 3 : FILM_MM + 3.4)], `underside ${t('roof', 'insideC')}`, {
      anchor: 'middle',
      halo: true,
    }),
  )
  items.push(text([middle, bottom - 2.6], `floor ${t('floor', 'insideC')}`, { anchor: 'middle', halo: true }))
  items.push(text([middle, bottom + 3.4], `below ${t('floor', 'outsideC')}`, { anchor: 'middle', halo: true }))
  // Walls: turned along them, outside and inside.
  const [yLeft, yRight] = [wallWordsY('left', vents, at), wallWordsY('right', vents, at)]
  items.push(
    text([left - 2, yLeft], `outside ${t('left', 'outsideC')}`, { turnDeg: -90, anchor: 'middle', halo: true }),
    text([left + wallFoam + 3, yLeft], `inside ${t('left', 'insideC')}`, { turnDeg: -90, anchor: 'middle', halo: true }),
    text([right - wallFoam - 1.2, yRight], `inside ${t('right', 'insideC')}`, { turnDeg: -90, anchor: 'middle', halo: true }),
    text([right + 3.8, yRight], `outside ${t('right', 'outsideC')}`, { turnDeg: -90, anchor: 'middle', halo: true }),
    text([left - 2, bottom + 3.4], 'left long side', { anchor: 'end' }),
    text([right + 2, bottom + 3.4], 'right long side'),
  )
  return items
}

/** Where the words along a wall stand: at its middle, else where its vents leave more room. */
function wallWordsY(side: Side, vents: readonly VentFlow[], { top, bottom, k }: Frame): number {
  const own = vents.filter((v) => v.side === side)
  const roomAt = (y: number): number =>
    Math.min(WALL_WORDS_MM, ...own.map((v) => Math.abs(y - (bottom - 1.6 - v.upM * k)) - (v.heightM * k) / 2))
  const heights = [0.56, 0.3, 0.75].map((share) => top + (bottom - top) * share)
  return heights.reduce((best, y) => (roomAt(y) > roomAt(best) ? y : best))
}
/** Half of such words, as set, and a little. */
const WALL_WORDS_MM = 11

/** What hangs under the roof, as thick as it is heavy, and its fall. */
function roofFilm({ spell, air, gearSide }: AirSection, at: Frame): readonly Item[] {
  const { left, right, top, bottom, k, h } = at
  const { roof } = spell.faces
  const film = roof.filmGPerM2[h] ?? 0
  const under = top + (air.roofFoamM > 0 ? Math.max(1.4, air.roofFoamM * k) : 0)
  const wall = air.wallFoamM > 0 ? Math.max(1.4, air.wallFoamM * k) : 0
  const items: Item[] = []
  if (film >= 0.5) {
    const frost = Math.min(film, roof.frostGPerM2[h] ?? 0)
    const thick = (g: number): number => (FILM_MM * Math.min(g, ROOF_HOLDS_KG_PER_M2 * 1000)) / (ROOF_HOLDS_KG_PER_M2 * 1000)
    const [ice, all] = [thick(frost), Math.max(0.7, thick(film))]
    const ends = Math.max(ice, frost > 0 ? 0.7 : 0)
    if (frost > 0) items.push(box([left + wall, under], right - left - 2 * wall, Math.min(ends, all), 'hair', 'dots'))
    if (film - frost > 0.05)
      items.push(
        box(
          [left + wall, under + Math.min(ends, all)],
          right - left - 2 * wall,
          Math.max(0.4, all - ends),
          'hair',
          'slant close',
        ),
      )
  }
  const fell = roof.fellG[h] ?? 0
  if (fell >= 0.5) {
    const width = gearWidthMm(at)
    const strokes = Array.from({ length: 9 }, (_, i): readonly Point[] => {
      const x = left + ((i + 1.5) / 11) * (right - left)
      // What lies below catches it: over the gear only the first row falls.
      const overGear = gearSide === 'left' ? x < left + width + 9 : x > right - width - 9
      const y = under + FILM_MM + 1 + (overGear ? 0 : (i % 3) * (bottom - top) * 0.06)
      return [
        [x + 0.4, y],
        [x - 0.3, y + 3.4],
      ]
    })
    items.push(...[many(strokes, 'ampere 2')].filter((one) => one !== null))
  }
  return items
}

const gearWidthMm = ({ left, right }: Frame): number => Math.min(19, (right - left) * 0.36)

/** The cabinet on its wall, to the eye and not to scale, under its hood where it has one. */
function gearItems({ spell, air, units, gearSide }: AirSection, at: Frame): readonly Item[] {
  const { left, right, top, bottom, h } = at
  const [width, high] = [gearWidthMm(at), (bottom - top) * 0.4]
  const x = gearSide === 'left' ? left + WALL_MM : right - WALL_MM - width
  const y = top + (bottom - top) * 0.3
  const dew = spell.gearFilmGPerM2[h] ?? 0
  const words = ['gear', degreesSaid(spell.gearC[h] ?? Number.NaN, units), ...(dew >= 0.05 ? [`dew ${filmSaid(dew)}`] : [])]
  const items: Item[] = [
    box([x, y], width, high, 'cut', 'blank'),
    ...(dew >= 0.05 ? [box([x, y], width, high, 'none', 'slant wide')] : []),
    ...words.flatMap((one, i) =>
      text([x + width / 2, y + 4 + i * LINE_MM], one, { anchor: 'middle', strong: i === 0, halo: true }),
    ),
  ]
  if (air.dripHood) {
    const [a, b]: [number, number] = gearSide === 'left' ? [x - 1, x + width + 3] : [x - 3, x + width + 1]
    items.push(
      line(
        [[a, y - 3.6 + (gearSide === 'left' ? -1.2 : 1.2)] as Point, [b, y - 3.6 + (gearSide === 'left' ? 1.2 : -1.2)] as Point],
        'cut',
      ),
    )
    items.push(
      text([gearSide === 'left' ? b + 0.8 : a - 0.8, y - 2], 'hood', {
        anchor: gearSide === 'left' ? 'start' : 'end',
        halo: true,
      }),
    )
  }
  return items
}

/** In the cabinet under the gear, or on the floor across from it; its bars stand where it gives heat. */
function heaterItems({ spell, air, gearSide }: AirSection, at: Frame): readonly Item[] {
  const { left, right, top, bottom, h } = at
  if (air.heater === null) return []
  const now = spell.heaterWh[h] ?? Number.NaN
  const words = Number.isNaN(now) ? 'heater' : now > 0.5 ? `heater ${fixed(now, 0)}${THIN}W` : 'heater off'
  const width = gearWidthMm(at)
  const inGear = air.heater.at === 'cabinet'
  const onLeft = inGear === (gearSide === 'left')
  const inset = WALL_MM + (inGear ? 1.4 : 0)
  const wide = inGear ? width - 2.8 : Math.min(18, right - left - width - 12)
  const x = onLeft ? left + inset : right - inset - wide
  const y = inGear ? top + (bottom - top) * 0.7 - 4 : bottom - 10
  return [
    box([x, y], wide, 2.8, 'symbol', now > 0.5 ? 'at 90' : 'blank'),
    text([x + wide / 2, y - 1], words, { anchor: 'middle', halo: true }),
  ]
}

function airItems({ spell, units, gearSide }: AirSection, at: Frame): readonly Item[] {
  const { left, right, top, bottom, h } = at
  const width = gearWidthMm(at)
  const [a, b] = gearSide === 'left' ? [left + 6 + width, right - 5] : [left + 5, right - 6 - width]
  const x = (a + b) / 2
  const y = top + (bottom - top) * 0.42
  return [
    `air ${degreesSaid(spell.airC[h] ?? Number.NaN, units)}`,
    `humidity ${fixed(spell.relativePct[h] ?? Number.NaN, 0)}${THIN}%`,
    `dew point ${degreesSaid(spell.dewPointC[h] ?? Number.NaN, units)}`,
  ]
    .flatMap((words) => wrapped(words, b - a))
    .map((one, i) => text([x, y + i * LINE_MM], one, { anchor: 'middle', strong: i === 0, halo: true }))
}

/** Middle heights of vents that open to the long sides stand in their wall; those of the ends stand on the wall behind. */
function ventItems(vent: VentFlow, { units }: AirSection, at: Frame, all: readonly VentFlow[], place: number): readonly Item[] {
  const { left, right, bottom, k } = at
  const most = Math.max(1e-9, ...all.map((v) => Math.abs(v.flowM3S ?? 0)))
  const flow = vent.flowM3S
  const half = Math.max(1.1, (vent.heightM * k) / 2)
  const y = bottom - 1.6 - vent.upM * k
  const said = [
    vent.id,
    ...(flow === null ? [] : [Math.abs(flow) < 1e-6 ? 'nothing passes' : `${flow > 0 ? 'in' : 'out'} ${flowSaid(flow, units)}`]),
  ]
  const weight = flow === null || Math.abs(flow) < 1e-6 ? 0 : 0.35 + 1.5 * Math.sqrt(Math.abs(flow) / most)
  if (vent.side === 'left' || vent.side === 'right') {
    const out = vent.side === 'left' ? -1 : 1
    const x = vent.side === 'left' ? left - STEEL_MM : right
    const inward = flow !== null && flow > 0
    const [from, to] = inward ? [x + out * 9, x - out * 7] : [x - out * 7, x + out * 9]
    const words = said.flatMap((one) => wrapped(one, (vent.side === 'left' ? left : 0) + 40))
    return [
      box([x - 0.1, y - half], STEEL_MM + 0.2, 2 * half, 'none', 'blank'),
      ...[y - half, y + half].map((edge) => line([[x - 0.8, edge] as Point, [x + STEEL_MM + 0.8, edge] as Point], 'opening')),
      ...(vent.fan ? fanItems([x + STEEL_MM / 2, y], Math.min(half, 2.2)) : []),
      ...(weight === 0 ? [] : arrow([from, y], [to, y], weight)),
      ...words.map((one, i) =>
        text([x + out * 10.5, y + 0.9 + (i - (words.length - 1) / 2) * LINE_MM], one, {
          anchor: out < 0 ? 'end' : 'start',
          strong: i === 0,
        }),
      ),
    ]
  }
  // On the wall behind: low ones below the gear's height, high ones away from it, their words on the side that is free.
  const low = vent.upM * k < (bottom - at.top) * 0.5
  const x = left + (right - left) * (low ? 0.47 : 0.72) + place * 2
  const inward = flow !== null && flow > 0
  const tip: readonly [Point, Point] = [
    [x, y],
    [x + 5, y + 3.6],
  ]
  const words = [`${said[0]}, ${vent.side}`, ...said.slice(1)]
  return [
    box([x - half, y - half], 2 * half, 2 * half, 'behind'),
    ...(vent.fan ? fanItems([x, y], half) : []),
    ...(weight === 0 ? [] : arrow(inward ? tip[0] : tip[1], inward ? tip[1] : tip[0], weight)),
    ...words.map((one, i) =>
      text([x, low ? y - half - 1.2 - (words.length - 1 - i) * LINE_MM : y + half + 3.6 + i * LINE_MM], one, {
        ...{ anchor: 'middle' as const, halo: true, strong: i === 0 },
      }),
    ),
  ]
}

/** A shaft as thick as the flow is large, and a head. */
function arrow(from: Point, to: Point, weightMm: number): readonly Item[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1])
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length]
  const headMm = 2.2 + weightMm
  const point = (along: number, across: number): Point => [from[0] + ux * along - uy * across, from[1] + uy * along + ux * across]
  const w = weightMm / 2
  const neck = length - headMm
  return [
    area(
      [point(0, w), point(neck, w), point(neck, w + 1), point(length, 0), point(neck, -w - 1), point(neck, -w), point(0, -w)],
      'solid',
    ),
  ]
}

const fanItems = ([x, y]: Point, r: number): readonly Item[] => [
  { kind: 'circle', atMm: [x, y], radiusMm: r, line: 'symbol', hatch: 'blank' },
  line([[x - r * 0.7, y - r * 0.7] as Point, [x + r * 0.7, y + r * 0.7] as Point], 'symbol'),
  line([[x - r * 0.7, y + r * 0.7] as Point, [x + r * 0.7, y - r * 0.7] as Point], 'symbol'),
]

/**
 * Height over the floor at which inside and outside press alike, from two vents of which one lets in and one lets out: the difference of pressure
 * goes as (flow/area)² and straight with height. Wind on the two sides and a fan shift it, so with a fan none is told. Null: not known.
 */
export function neutralLevelM(
  vents: readonly { readonly upM: number; readonly areaM2: number; readonly flowM3S: number | null; readonly fan: boolean }[],
): number | null {
  const [a, b] = vents
  if (a === undefined || b === undefined || vents.length !== 2 || a.fan || b.fan) return null
  if (a.flowM3S === null || b.flowM3S === null || a.flowM3S * b.flowM3S >= 0 || a.upM === b.upM) return null
  const [pa, pb] = [(a.flowM3S / a.areaM2) ** 2, (b.flowM3S / b.areaM2) ** 2]
  return a.upM + ((b.upM - a.upM) * pa) / (pa + pb)
}

function neutralItems(vents: readonly VentFlow[], { left, right, bottom, k }: Frame): readonly Item[] {
  const level = neutralLevelM(vents)
  if (level === null) return []
  const y = bottom - 1.6 - level * k
  return [line([[left, y] as Point, [right, y] as Point], 'fold')]
}
