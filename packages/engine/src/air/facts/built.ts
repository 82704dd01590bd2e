import type { AirDesign, Job } from '../../job/index.ts'
import { parseQuantity } from '../../kernel/index.ts'
import { amount } from '../figures.ts'
import { type AirNote, type Noticed, noticed } from './note.ts'

/** A vent of a box that stands, as its words give it. */
export interface VentTold {
  readonly id: string
  readonly low: boolean
  readonly freeM2: number
  /** Clear width of its mesh; null: none is named. */
  readonly meshMm: number | null
}

/** What a box that stands was built with, as far as its words can be read. Null: not told, or not readable, and `notes` says which. */
export interface BuiltAir {
  readonly roofFoamM: number | null
  readonly wallFoamM: number | null
  readonly heater: { readonly powerW: number; readonly at: 'room' | 'cabinet' } | 'none' | null
  readonly vents: readonly VentTold[] | null
}

const NONE = /^(none|no|nothing|bare)\b/i

/** Insulation, heater and vents of the box that stands, by small sure rules; what they cannot read is unknown, with the mend. */
export function builtAirOf(job: Pick<Job, 'boxes' | 'builtBody'>): Noticed<BuiltAir> | null {
  const body = job.boxes.length === 1 ? job.builtBody : null
  if (body === null) return null
  const notes: AirNote[] = []
  const read = <T>(key: string, words: string | null | undefined, of: (words: string) => T | null, mend: string): T | null => {
    const path = `facts.built.${key}`
    if (words === null || words === undefined) {
      notes.push({ kind: 'missing', path, said: `Of the box that stands nobody has said its ${key}.`, source: '', mend })
      return null
    }
    const value = of(words)
    if (value === null)
      notes.push({
        ...{
          kind: 'unread',
          path,
          said: `The ${key} of the box that stands, “${words}”, cannot be read for sure.`,
          source: '',
          mend,
        },
      })
    return value
  }
  const foam = read('insulation', body.insulation, foamIn, 'Write “none”, or for example “50 mm foam on roof and walls”.')
  const heater = read(
    'heater',
    body.heater,
    heaterIn,
    'Write “none”, or for example “500 W in the room” or “100 W in the cabinet”.',
  )
  const vents = read(
    ...([
      'vents',
      body.vents,
      ventsIn,
      'Write “none”, or for example “two low and two high, 180 cm2 free each, 3 mm mesh”.',
    ] as const),
  )
  return noticed({ roofFoamM: foam?.roofM ?? null, wallFoamM: foam?.wallM ?? null, heater, vents }, ...notes)
}

/** `50 mm foam on roof and walls`, `25 mm spray foam, roof`. One thickness, of foam; both faces where none is named. */
export function foamIn(words: string): { readonly roofM: number; readonly wallM: number } | null {
  if (NONE.test(words.trim())) return { roofM: 0, wallM: 0 }
  const found = [...words.matchAll(/([\d.]+)\s*(mm|cm|in)\b/g)]
  const [first] = found
  if (first === undefined || found.length > 1 || !/\bfoam(ed)?\b/i.test(words)) return null
  const thickM = Number(first[1]) * LENGTH_M[first[2] as keyof typeof LENGTH_M]
  if (!(thickM > 0 && thickM <= 0.3)) return null
  const roof = /\b(roof|ceiling)\b/i.test(words)
  const walls = /\b(walls?|sides?)\b/i.test(words)
  const both = roof === walls
  return { roofM: both || roof ? thickM : 0, wallM: both || walls ? thickM : 0 }
}
const LENGTH_M = { mm: 0.001, cm: 0.01, in: 0.0254 } as const

/** `500 W near the panel`, `100 W in the cabinet`: one power. */
export function heaterIn(words: string): NonNullable<BuiltAir['heater']> | null {
  if (NONE.test(words.trim())) return 'none'
  const found = [...words.matchAll(/[\d.]+\s*k?W\b/g)].map((m) => parseQuantity(m[0], 'power'))
  const [power] = found
  if (power === undefined || !power.ok || found.length > 1 || power.value.value <= 0) return null
  return { powerW: power.value.value, at: /\b(cabinet|enclosure|inside the panel)\b/i.test(words) ? 'cabinet' : 'room' }
}

const COUNTS: Readonly<Record<string, number>> = { one: 1, two: 2, three: 3, four: 4, five: 5, six: 6 }
const AREA_M2 = { cm2: 1e-4, mm2: 1e-6, m2: 1, in2: 6.4516e-4 } as const

/** `two low and two high, 180 cm2 free each, 3 mm mesh`: how many low and high, one free area for each; others behind a semicolon. */
export function ventsIn(words: string): readonly VentTold[] | null {
  if (NONE.test(words.trim())) return []
  const groups = words.split(';').map(ventGroup)
  const all = groups.flatMap((group) => group ?? [])
  return groups.includes(null) || new Set(all.map((v) => v.id)).size < all.length ? null : all
}

function ventGroup(words: string): readonly VentTold[] | null {
  const counts = [...words.matchAll(/\b(one|two|three|four|five|six|\d)\s+(low|high)\b/gi)]
  const areas = [...words.matchAll(/([\d.]+)\s*(cm2|mm2|m2|in2)\b/g)]
  const [area] = areas
  if (counts.length === 0 || counts.length > 2 || area === undefined || areas.length > 1 || !/\beach\b/i.test(words)) return null
  const freeM2 = Number(area[1]) * AREA_M2[area[2] as keyof typeof AREA_M2]
  if (!(freeM2 > 0 && freeM2 < 4)) return null
  const mesh = /([\d.]+)\s*mm\s+mesh\b/.exec(words)
  return counts.flatMap(([, count = '', where = '']) => {
    const level = where.toLowerCase()
    return Array.from({ length: COUNTS[count.toLowerCase()] ?? Number(count) }, (_, i) => ({
      ...{ id: `vent ${level} ${i + 1}`, low: level === 'low', freeM2, meshMm: mesh === null ? null : Number(mesh[1]) },
    }))
  })
}

/**
 * The design with what the box that stands has in place of what a new one would get; what a person pinned is a change to it, and stands.
 * `pinned`: last words of the choices that are.
 */
export function airAsBuilt(air: AirDesign, built: BuiltAir, pinned: ReadonlySet<string> = NOTHING): AirDesign {
  const heater = air.heater ?? { onBelowC: amount('heater-on'), humidistat: false }
  return {
    ...air,
    roofFoamM: pinned.has('roof-foam') ? air.roofFoamM : (built.roofFoamM ?? air.roofFoamM),
    wallFoamM: pinned.has('wall-foam') ? air.wallFoamM : (built.wallFoamM ?? air.wallFoamM),
    heater:
      built.heater === null || pinned.has('heater')
        ? air.heater
        : built.heater === 'none'
          ? null
          : { ...heater, ...built.heater },
  }
}
const NOTHING: ReadonlySet<string> = new Set()
