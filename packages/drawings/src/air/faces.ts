import type { AirFaceHours, AirSpell } from '@plugstead/engine/air'
import { DRIP_WARNING_KG_PER_M2 } from '@plugstead/engine/air'
import { SIDES, type Side } from '@plugstead/engine/job'
import type { Hatch } from '../hatches.ts'
import { wordsMm } from '../model/lettering.ts'
import { box, type Item, LETTERING_MM, line, many, type Point, type Scene, text } from '../scene.ts'
import { timeAt, timeWords } from './clock.ts'
import { LINE_MM, paragraph, wrapped } from './plot.ts'
import { type AirUnits, degreesSaid, filmSaid, fixed, flowSaid, waterSaid } from './units.ts'

/** Inside measures of the box. */
export interface AirBoxSize {
  readonly lengthM: number
  readonly widthM: number
  readonly heightM: number
}

export interface AirFaces {
  readonly widthMm: number
  readonly units: AirUnits
  readonly spell: AirSpell
  /** Hour of the spell. */
  readonly atH: number
  readonly sizeM: AirBoxSize
  /** Sides that vents and fans are in. */
  readonly vents: readonly { readonly id: string; readonly side: Side; readonly flowM3S: number | null }[]
}

const NARROW_MM = 150
/** Longer than this the roof would lie too far out beyond an end. */
const ROOF_BESIDE_M = 7
const NAMES: Readonly<Record<Side, string>> = {
  left: 'left long side',
  right: 'right long side',
  'blind end': 'blind end',
  'door end': 'door end',
  roof: 'roof',
  floor: 'floor',
}
/** Under this nothing is seen: half a gram. */
const SEEN_G_PER_M2 = 0.5
const INSET_MM = 1.6

/** The six faces fallen open, seen from inside: floor in the middle; on each its temperatures, what hangs on it, and what falls from it in the hour. */
export function airFaces(of: AirFaces): Scene {
  const { spell, atH, widthMm } = of
  if (!(atH >= 0 && atH < spell.hoursCount))
    return { sizeMm: [widthMm, 8], said: `${spell.what}: no such hour.`, items: [text([0, 5], 'No hour is chosen.')] }
  const places = net(of.sizeM, widthMm)
  const head = paragraph(headWords(of), [0, 3], widthMm)
  const topMm = head.nextMm
  const bottomMm = topMm + Math.max(...SIDES.map((side) => places[side].y + places[side].h))
  const key = keyItems(bottomMm + 6, widthMm)
  return {
    sizeMm: [widthMm, key.bottomMm],
    said: `${headWords(of)}. ${SIDES.map((side) => `${NAMES[side]}: ${faceWords(spell.faces[side], of).join(', ')}`).join('; ')}.`,
    items: [
      ...head.items,
      ...SIDES.flatMap((side) => faceItems(side, { ...places[side], y: places[side].y + topMm }, of)),
      ...edgeItems(places, topMm),
      ...key.items,
    ],
  }
}

interface Place {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
}

/** Where each face lies, by the six sides of the box: the roof beyond the door end, or above the right long side where the sheet is narrow or the box long. */
function net({ lengthM: L, widthM: W, heightM: H }: AirBoxSize, widthMm: number): Readonly<Record<Side, Place>> {
  const beyond = L <= ROOF_BESIDE_M && widthMm >= NARROW_MM
  const k = (widthMm - 0.8) / (L + 2 * H + (beyond ? L : 0))
  const up = beyond ? 0 : W
  const at = (x: number, y: number, w: number, h: number): Place => ({ x: 0.4 + x * k, y: y * k, w: w * k, h: h * k })
  return {
    right: at(H, up, L, H),
    'blind end': at(0, up + H, H, W),
    floor: at(H, up + H, L, W),
    'door end': at(H + L, up + H, H, W),
    left: at(H, up + H + W, L, H),
    roof: beyond ? at(2 * H + L, H, L, W) : at(H, 0, L, W),
  }
}

function headWords({ spell, atH, units }: AirFaces): string {
  const t = (values: readonly number[]): string => degreesSaid(values[atH] ?? Number.NaN, units)
  return `${timeWords(timeAt(spell, atH + 1))}: outside ${t(spell.outsideC)}, air inside ${t(spell.airC)}, humidity ${fixed(spell.relativePct[atH] ?? Number.NaN, 0)} %, dew point ${t(spell.dewPointC)}, gear ${t(spell.gearC)}`
}

/** One hatch a state: frost in dots, a film of water slanted wide, one that is near to falling slanted close. */
function hatchOf(filmG: number, frostG: number): Hatch {
  if (!(filmG >= SEEN_G_PER_M2)) return 'blank'
  if (frostG >= filmG / 2) return 'dots'
  return filmG >= DRIP_WARNING_KG_PER_M2 * 1000 ? 'slant close' : 'slant wide'
}

function figuresOf(face: AirFaceHours, h: number) {
  const filmG = face.filmGPerM2[h] ?? Number.NaN
  const frostG = Math.min(filmG, face.frostGPerM2[h] ?? 0)
  return {
    filmG,
    frostG,
    waterG: filmG - frostG,
    fellG: face.fellG[h] ?? 0,
    insideC: face.insideC[h] ?? Number.NaN,
    outsideC: face.outsideC[h] ?? Number.NaN,
  }
}

/** What is said of a face, a line each. */
function faceWords(face: AirFaceHours, { atH, units }: AirFaces): readonly string[] {
  const { filmG, frostG, waterG, fellG, insideC, outsideC } = figuresOf(face, atH)
  return [
    `inside ${degreesSaid(insideC, units)}`,
    `outside ${degreesSaid(outsideC, units)}`,
    ...(Number.isNaN(filmG) ? ['film not known'] : []),
    ...(frostG >= SEEN_G_PER_M2 ? [`frost ${filmSaid(frostG)}`] : []),
    ...(waterG >= SEEN_G_PER_M2 ? [`water ${filmSaid(waterG)}`] : []),
    ...(filmG < SEEN_G_PER_M2 ? ['dry'] : []),
    ...(fellG >= 0.5 ? [`${waterSaid(fellG, units)} falls`] : []),
  ]
}

function faceItems(side: Side, place: Place, of: AirFaces): readonly Item[] {
  const face = of.spell.faces[side]
  const { filmG, frostG, fellG } = figuresOf(face, of.atH)
  const { x, y, w, h } = place
  const room = w - 2 * INSET_MM
  const lines = [NAMES[side], ...faceWords(face, of)].flatMap((words, i) =>
    wrapped(words, room).map((one) => ({ one, strong: i === 0 })),
  )
  const vents = of.vents.filter((v) => v.side === side)
  const ventsMm = vents.length * LINE_MM
  return [
    box([x, y], w, h, 'none', hatchOf(filmG, frostG)),
    ...lines.map(({ one, strong }, i) => text([x + INSET_MM, y + 3.6 + i * LINE_MM], one, { strong, halo: true })),
    ...vents.flatMap((v, i) => ventItems(v, of.units, room, [x + w - INSET_MM, y + h - 1.6 - (vents.length - 1 - i) * LINE_MM])),
    ...fallItems(fellG, [x + w - INSET_MM, y + h - 2 - ventsMm], room / 2),
  ]
}

/** A vent is said where it fits: its name, and what passes it in the hour. */
function ventItems(vent: AirFaces['vents'][number], units: AirUnits, room: number, at: Point): readonly Item[] {
  const still = vent.flowM3S === null || Math.abs(vent.flowM3S) < 1e-6
  const long = `${vent.id}, ${still ? '' : `${vent.flowM3S > 0 ? 'in' : 'out'} ${flowSaid(vent.flowM3S, units)}`}`
  const words = still ? vent.id : wordsMm(long, LETTERING_MM) + 4 > room ? `${vent.id} ${vent.flowM3S > 0 ? 'in' : 'out'}` : long
  return [
    text(at, words, { anchor: 'end', halo: true }),
    box([at[0] - wordsMm(words, LETTERING_MM) - 2.6, at[1] - 1.9], 1.9, 1.9, 'opening', 'blank'),
  ]
}

/** Falling strokes in the lower right corner of a face, more for more. */
function fallItems(fellG: number, [right, bottom]: Point, room: number): readonly Item[] {
  if (!(fellG >= 0.5)) return []
  const count = Math.max(1, Math.min(11, 2 + 3 * Math.floor(Math.log10(Math.max(1, fellG))), Math.floor(room / 1.6)))
  const strokes = Array.from({ length: count }, (_, i): readonly Point[] => [
    [right - i * 1.6, bottom - 4],
    [right - 0.5 - i * 1.6, bottom],
  ])
  const item = many(strokes, 'ampere 2')
  return item === null ? [] : [item]
}

/** Edges that two faces share are folds, the others are cut. */
function edgeItems(places: Readonly<Record<Side, Place>>, topMm: number): readonly Item[] {
  const seen = new Map<string, { readonly points: readonly [Point, Point]; count: number }>()
  for (const side of SIDES) {
    const { x, y, w, h } = places[side]
    const corners: readonly Point[] = [
      [x, y + topMm],
      [x + w, y + topMm],
      [x + w, y + h + topMm],
      [x, y + h + topMm],
    ]
    corners.forEach((from, i) => {
      const points = [from, corners[(i + 1) % 4]!].sort((a, b) => a[0] - b[0] || a[1] - b[1]) as [Point, Point]
      const key = points
        .flat()
        .map((v) => v.toFixed(2))
        .join(' ')
      const had = seen.get(key)
      if (had === undefined) seen.set(key, { points, count: 1 })
      else had.count += 1
    })
  }
  return [...seen.values()].map(({ points, count }) => line(points, count > 1 ? 'fold' : 'opening'))
}

function keyItems(topMm: number, widthMm: number): { readonly items: readonly Item[]; readonly bottomMm: number } {
  const samples: readonly (readonly [Hatch | 'falls', string])[] = [
    ['dots', 'mostly frost'],
    ['slant wide', 'water'],
    ['slant close', `water from ${fixed(DRIP_WARNING_KG_PER_M2 * 1000, 0)} g/m², near to falling`],
    ['falls', 'falls in this hour'],
  ]
  const items: Item[] = []
  let [x, y] = [0.4, topMm]
  for (const [hatch, words] of samples) {
    const length = 7 + wordsMm(words, LETTERING_MM) + 5
    if (x > 1 && x + length - 5 > widthMm) [x, y] = [0.4, y + LINE_MM + 1]
    if (hatch === 'falls')
      for (const d of [1, 2.6, 4.2])
        items.push(line([[x + d + 0.4, y - 2.4] as Point, [x + d - 0.1, y + 0.4] as Point], 'ampere 2'))
    else items.push(box([x, y - 2.4], 5.4, 2.8, 'rib', hatch))
    items.push(text([x + 7, y], words))
    x += length
  }
  return { items, bottomMm: y + 2 }
}
