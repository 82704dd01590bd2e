import { parseQuantity } from '../kernel/index.ts'
import { PAINTS, type Paint, paintsSaid } from './paint.ts'
import type { Pin } from './types.ts'

/** Decisions of a person on what keeps one box dry and cool. Null: left to the program. */
export interface AirPins {
  readonly roofPaint: Paint | null
  readonly wallPaint: Paint | null
  readonly roofFoamM: number | null
  readonly wallFoamM: number | null
  readonly bridgesFoamed: boolean | null
  readonly secondRoof: boolean | null
  readonly vents: { readonly widthMm: number; readonly heightMm: number } | 'no' | null
  readonly ventPlaces: VentPlaces | null
  readonly winterOpenFrac: number | null
  readonly fan: FanPin | 'no' | null
  readonly heater: HeaterPin | 'no' | null
  readonly humidistat: boolean | null
  readonly dripHood: boolean | null
  readonly floorPainted: boolean | null
  readonly unread: readonly { readonly pin: Pin; readonly wanted: string }[]
}

/** Where a vent stands in its wall. Null: where the program puts it. */
export interface VentPlace {
  readonly side: VentSide | null
  /** Middle of the opening over the floor. */
  readonly upMm: number | null
}

/** Of the low vent and of the high one, in which the fan sits where there is one. */
export type VentPlaces = Readonly<Record<'low' | 'high', VentPlace>>

const VENT_SIDES = ['left', 'right', 'blind end'] as const
export type VentSide = (typeof VENT_SIDES)[number]

export interface FanPin {
  readonly powerW: number
  readonly solar: boolean
  /** Null: the house's. */
  readonly onAboveC: number | null
  readonly byHumidity: boolean
}

export interface HeaterPin {
  readonly powerW: number
  readonly at: 'room' | 'cabinet'
  /** Null: what the box is to be kept at, else the house's against frost. */
  readonly onBelowC: number | null
}

/** Names of the choices of air, as they end the path `air.<box>.`. */
export const AIR_CHOICES = [
  'roof-paint',
  'wall-paint',
  'roof-foam',
  'wall-foam',
  'bridges-foamed',
  'second-roof',
  'vents',
  'vent-places',
  'winter-open',
  'fan',
  'heater',
  'humidistat',
  'drip-hood',
  'floor-painted',
] as const
export type AirChoice = (typeof AIR_CHOICES)[number]

export const airPath = (box: string, choice: AirChoice): string => `air.${box}.${choice}`

const YES_NO = '“yes” or “no”'
const FOAM = 'a thickness from 10 to 150 mm, for example “50 mm”, or “no”'
const PAINT = `a colour such as “white” or “dark green”, or one of ${PAINTS.map((p) => `“${p}”`).join(', ')}`
const VENTS = 'width and height of each, 100 to 1000 mm, for example “300 x 300 mm” or “12 x 12 in”, or “no”'
const PLACES =
  'wall and height of the middle over the floor, 100 to 2700 mm, of the low vent, the high one or both, for example “low right 450 mm, high left 2000 mm”'
const OPEN = 'a share from 0 to 100 %, for example “30 %”'
const FAN = 'its power, for example “60 W”, “60 W above 28 C”, “60 W by humidity”, “12 W solar”, or “no”'
const HEATER = 'power and place, for example “1500 W room”, “150 W cabinet”, “150 W cabinet below 2 C”, or “no”'

/** What is pinned for a box; one that cannot be read is kept apart with what is wanted, never passed over. */
export function airPinsOf(pins: readonly Pin[], box: string): AirPins {
  const unread: { pin: Pin; wanted: string }[] = []
  const read = <T>(choice: AirChoice, wanted: string, of: (value: string) => T | null): T | null => {
    const pin = pins.find((one) => one.path === airPath(box, choice))
    if (pin === undefined) return null
    const said = pin.value === true ? 'yes' : pin.value === false ? 'no' : String(pin.value).trim()
    const value = of(said)
    if (value === null) unread.push({ pin, wanted })
    return value
  }
  const paint = (choice: 'roof-paint' | 'wall-paint') => read(choice, PAINT, (words) => paintsSaid(words)?.walls ?? null)
  const foam = (choice: 'roof-foam' | 'wall-foam') => read(choice, FOAM, foamM)
  const yes = (choice: AirChoice) => read(choice, YES_NO, yesNo)
  return {
    roofPaint: paint('roof-paint'),
    wallPaint: paint('wall-paint'),
    roofFoamM: foam('roof-foam'),
    wallFoamM: foam('wall-foam'),
    bridgesFoamed: yes('bridges-foamed'),
    secondRoof: yes('second-roof'),
    vents: read('vents', VENTS, ventSize),
    ventPlaces: read('vent-places', PLACES, ventPlaces),
    winterOpenFrac: read('winter-open', OPEN, share),
    fan: read('fan', FAN, fanPin),
    heater: read('heater', HEATER, heaterPin),
    humidistat: yes('humidistat'),
    dripHood: yes('drip-hood'),
    floorPainted: yes('floor-painted'),
    unread,
  }
}

const yesNo = (value: string): boolean | null => (value === 'yes' ? true : value === 'no' ? false : null)

/** Foam thinner than this does not close, thicker does not hold to the sheet. House rule. */
const FOAM_M = { least: 0.01, most: 0.15 }

function foamM(value: string): number | null {
  if (value === 'no') return 0
  const read = parseQuantity(value, 'length')
  if (!read.ok) return null
  return read.value.value >= FOAM_M.least && read.value.value <= FOAM_M.most ? read.value.value : null
}

const MM_PER_IN = 25.4

function ventSize(value: string): AirPins['vents'] {
  if (value === 'no') return 'no'
  const [, width, height, unit] = /^(\d+(?:\.\d+)?)\s*x\s*(\d+(?:\.\d+)?)\s*(mm|in)$/.exec(value) ?? []
  const [widthMm, heightMm] = [width, height].map((n) => Number(n) * (unit === 'in' ? MM_PER_IN : 1))
  const fits = (mm: number | undefined): mm is number => mm !== undefined && mm >= 100 && mm <= 1000
  return fits(widthMm) && fits(heightMm) ? { widthMm, heightMm } : null
}

const UP_MM = { least: 100, most: 2700 }
const NOWHERE: VentPlace = { side: null, upMm: null }

function ventPlaces(value: string): VentPlaces | null {
  const out: { low: VentPlace; high: VentPlace } = { low: NOWHERE, high: NOWHERE }
  for (const part of value.split(',')) {
    const hit = /^\s*(low|high)(?:\s+(left|right|blind end))?(?:\s+(\d.*?))?\s*$/.exec(part)
    const which = hit?.[1] as 'low' | 'high' | undefined
    if (hit === null || which === undefined || out[which] !== NOWHERE) return null
    const [, , side, up] = hit
    const read = up === undefined ? null : parseQuantity(up, 'length')
    const upMm = read?.ok === true ? read.value.value * 1000 : null
    if (up !== undefined && !(upMm !== null && upMm >= UP_MM.least && upMm <= UP_MM.most)) return null
    if (side === undefined && upMm === null) return null
    out[which] = { side: (side as VentSide | undefined) ?? null, upMm }
  }
  return out
}

/** The words that the pin of these places takes: millimetres, whole. */
export const ventPlacesSaid = (
  vents: readonly { readonly low: boolean; readonly side: VentSide; readonly upMm: number }[],
): string => vents.map((v) => `${v.low ? 'low' : 'high'} ${v.side} ${Math.round(v.upMm)} mm`).join(', ')

function share(value: string): number | null {
  const read = /%$/.test(value) ? parseQuantity(value, 'share') : null
  const frac = read === null ? (value === '' ? Number.NaN : Number(value)) : read.ok ? read.value.value : Number.NaN
  return frac >= 0 && frac <= 1 ? frac : null
}

/** A number of watts within the range; null: none. */
function watts(value: string, mostW: number): number | null {
  const read = parseQuantity(value, 'power')
  return read.ok && read.value.value > 0 && read.value.value <= mostW ? read.value.value : null
}

function celsius(value: string | undefined): number | null {
  if (value === undefined) return null
  const read = parseQuantity(value, 'temperature')
  return read.ok && read.value.value >= -60 && read.value.value <= 60 ? read.value.value : null
}

function fanPin(value: string): FanPin | 'no' | null {
  if (value === 'no') return 'no'
  const hit = /^([\d.]+\s*k?W)(\s+solar)?(?:\s+above\s+(-?[\d.]+\s*[CF]))?(\s+by humidity)?$/.exec(value)
  const powerW = hit?.[1] === undefined ? null : watts(hit[1], 500)
  if (hit === null || powerW === null) return null
  const onAboveC = celsius(hit[3])
  if (hit[3] !== undefined && onAboveC === null) return null
  return { powerW, solar: hit[2] !== undefined, onAboveC, byHumidity: hit[4] !== undefined }
}

function heaterPin(value: string): HeaterPin | 'no' | null {
  if (value === 'no') return 'no'
  const hit = /^([\d.]+\s*k?W)\s+(room|cabinet)(?:\s+below\s+(-?[\d.]+\s*[CF]))?$/.exec(value)
  const powerW = hit?.[1] === undefined ? null : watts(hit[1], 10_000)
  if (hit === null || powerW === null) return null
  const onBelowC = celsius(hit[3])
  if (hit[3] !== undefined && onBelowC === null) return null
  return { powerW, at: hit[2] as 'room' | 'cabinet', onBelowC }
}
