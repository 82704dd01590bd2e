import type { BoxBody } from '../../box/index.ts'
import type { AirDesign, AirPins, Paint, VentWanted } from '../../job/index.ts'
import type { Prices } from '../../parts/index.ts'
import { ventPair, ventsPlaced } from '../design.ts'
import type { Paints } from '../facts/paint.ts'
import { buildFigure } from '../figures.ts'
import type { MeasureAreas } from '../measures/areas.ts'
import { measuresCost } from '../measures/cost.ts'
import { opticsOf } from '../surface/optics.ts'

/** What is chosen about the air of a box, one choice each. */
export const CHOICES = ['roof paint', 'wall paint', 'air', 'foam', 'second roof', 'heater', 'drip hood', 'floor paint'] as const
export type Choice = (typeof CHOICES)[number]

/** One way to make a choice, and what it costs at once. */
export interface Option {
  readonly choice: Choice
  /** In words, short: `heater 250 W in the cabinet, by humidity too`. */
  readonly said: string
  readonly takes: Partial<AirDesign>
  readonly money: number
}

/** Options of every choice, cheapest first. */
export interface Menu {
  readonly options: Readonly<Record<Choice, readonly Option[]>>
  /** Price rows that are missing: what would need them is not on the menu. */
  readonly unpriced: readonly string[]
}

export interface MenuTask {
  readonly box: string
  readonly body: BoxBody
  /** As it is laid out: what a choice falls back on. */
  readonly air: AirDesign
  readonly pins: AirPins
  readonly painted: Paints
  readonly areas: MeasureAreas
  readonly prices: Prices
  /** Months below freezing: without them vents need no winter position. */
  readonly winter: boolean
  /** Gear in its cabinet is kept above this. */
  readonly gearAboveC: number
  /** The person wants the box, or its panel end, kept warm. */
  readonly heated: boolean
  /** Can its openings be cut? What cannot is not on the menu, unless it is pinned. */
  readonly canCut: (air: AirDesign) => boolean
}

const WHITE: Paint = 'white epoxy, clean'
const REFLECTING: Paint = 'white TiO2 coating, clean'
const VENTS_MM = [300, 400, 600] as const
const FOAM_MM = [25, 50, 75] as const
const WINTER_FRAC = 0.2
const ROOM_W = [500, 1500, 2000] as const
const CABINET_W = [100, 150, 250, 400, 600, 800, 1200] as const
const FAN_W = 60
const SOLAR_W = 25

type Draft = Omit<Option, 'choice' | 'money'>

/** What may be chosen for a box: a pin leaves one way, a measure whose price is missing is left out. */
export function menuOf(task: MenuTask): Menu {
  const unpriced = new Set<string>()
  const drafts: Readonly<Record<Choice, readonly Draft[]>> = {
    'roof paint': roofPaints(task),
    'wall paint': wallPaints(task),
    air: airs(task),
    foam: foams(task),
    'second roof': yesNo(task.pins.secondRoof, 'a second roof', (secondRoof) => ({ secondRoof })),
    heater: heaters(task),
    'drip hood': yesNo(task.pins.dripHood, 'a drip hood over the gear', (dripHood) => ({ dripHood })),
    'floor paint': yesNo(task.pins.floorPainted, 'a painted floor', (floorPainted) => ({ floorPainted })),
  }
  const priced = (choice: Choice): readonly Option[] => {
    const all = drafts[choice].map((draft) => {
      const { value } = measuresCost({
        ...{ box: task.box, areas: task.areas, painted: task.painted, prices: task.prices },
        air: { ...bare(task), ...draft.takes },
      })
      return { option: { choice, ...draft, money: value.totalMoney }, missing: value.missing.map((m) => m.id) }
    })
    for (const { missing } of all) for (const id of missing) unpriced.add(id)
    const cut = choice === 'air' ? all.filter((one) => task.canCut({ ...task.air, ...one.option.takes })) : all
    const known = cut.filter((one) => one.missing.length === 0)
    // A pinned way stays, priced or not; so does the only one there is.
    return (known.length === 0 ? all.slice(0, 1) : known)
      .map((one) => one.option)
      .map((option, at) => ({ option, at }))
      .toSorted((a, b) => a.option.money - b.option.money || a.at - b.at)
      .map((one) => one.option)
  }
  const options = Object.fromEntries(CHOICES.map((choice) => [choice, priced(choice)])) as unknown as Menu['options']
  return { options, unpriced: [...unpriced].toSorted() }
}

/** Nothing bought. */
const bare = ({ air, painted }: MenuTask): AirDesign => ({
  ...air,
  ...{ roofPaint: painted.roof, wallPaint: painted.walls, vents: [], winterOpenFrac: 1, roofFoamM: 0, wallFoamM: 0 },
  ...{ bridgesFoamed: false, secondRoof: false, fan: null, heater: null, dripHood: false, floorPainted: false },
})

const lighter = (paint: Paint, than: Paint): boolean =>
  opticsOf(paint, 3).absorptanceFrac < opticsOf(than, 3).absorptanceFrac - 0.02

function roofPaints({ pins, painted }: MenuTask): readonly Draft[] {
  if (pins.roofPaint !== null) return [{ said: pins.roofPaint, takes: { roofPaint: pins.roofPaint } }]
  const more = [WHITE, REFLECTING].filter((paint) => lighter(paint, painted.roof))
  return [painted.roof, ...more].map((roofPaint) => ({ said: `roof ${roofPaint}`, takes: { roofPaint } }))
}

function wallPaints({ pins, painted }: MenuTask): readonly Draft[] {
  if (pins.wallPaint !== null) return [{ said: pins.wallPaint, takes: { wallPaint: pins.wallPaint } }]
  const more = [WHITE].filter((paint) => lighter(paint, painted.walls))
  return [painted.walls, ...more].map((wallPaint) => ({ said: `walls ${wallPaint}`, takes: { wallPaint } }))
}

/** Vents by size, with a winter position or without, and the fan in the high one. */
function airs({ body, pins, winter }: MenuTask): readonly Draft[] {
  const sizes = pins.vents === 'no' ? [null] : pins.vents !== null ? [pins.vents] : [null, ...VENTS_MM.map(square)]
  const open = pins.winterOpenFrac !== null ? [pins.winterOpenFrac] : winter ? [1, WINTER_FRAC] : [1]
  return fans(pins).flatMap((fan) =>
    sizes.flatMap((size) =>
      (size === null ? open.slice(0, 1) : open).map((winterOpenFrac): Draft => {
        const usual = square(buildFigure('vent-size').value)
        const wide = size ?? usual
        const pair = ventPair(body, wide.widthMm, wide.heightMm, fan !== null)
        // A fan keeps the hole it is made for, however large the vent across from it.
        const holes = pins.vents === null && fan !== null ? ventPair(body, usual.widthMm, usual.heightMm, true) : pair
        const vents: readonly VentWanted[] = [...(size === null ? [] : pair.filter((v) => !v.fan)), ...holes.filter((v) => v.fan)]
        return {
          said: [
            size === null ? 'no vents' : `vents ${size.widthMm} x ${size.heightMm} mm`,
            ...(winterOpenFrac < 1 && size !== null ? [`${Math.round(winterOpenFrac * 100)} % open in winter`] : []),
            fanSaid(fan),
          ].join(', '),
          takes: { vents: ventsPlaced(vents, pins.ventPlaces), winterOpenFrac, fan },
        }
      }),
    ),
  )
}

const square = (mm: number) => ({ widthMm: mm, heightMm: mm })

function fans({ fan }: AirPins): readonly AirDesign['fan'][] {
  const onAboveC = buildFigure('fan-on').value
  if (fan === 'no') return [null]
  if (fan !== null) return [{ ...fan, onAboveC: fan.onAboveC ?? onAboveC }]
  const usual = { powerW: FAN_W, solar: false, onAboveC, byHumidity: false }
  return [null, usual, { ...usual, byHumidity: true }, { ...usual, powerW: SOLAR_W, solar: true }]
}

const fanSaid = (fan: AirDesign['fan']): string =>
  fan === null
    ? 'no fan'
    : `fan ${fan.powerW} W${fan.solar ? ' driven by the sun' : ''}${fan.byHumidity ? ' by humidity too' : ''}`

/** Roof alone, or roof and walls alike; rails and posts with them or bare. */
function foams({ pins }: MenuTask): readonly Draft[] {
  const roofs = pins.roofFoamM !== null ? [pins.roofFoamM] : [0, ...FOAM_MM.map((mm) => mm / 1000)]
  const out: Draft[] = []
  for (const roofFoamM of roofs) {
    const walls =
      pins.wallFoamM !== null
        ? [pins.wallFoamM]
        : pins.roofFoamM !== null
          ? [0, ...FOAM_MM.map((mm) => mm / 1000)]
          : roofFoamM > 0
            ? [0, roofFoamM]
            : [0]
    for (const wallFoamM of walls) {
      const some = roofFoamM + wallFoamM > 0
      const bridges = pins.bridgesFoamed !== null ? [pins.bridgesFoamed] : some ? [false, true] : [false]
      for (const bridgesFoamed of bridges) {
        const mm = (m: number) => `${Math.round(m * 1000)} mm`
        const said = !some
          ? 'no foam'
          : `foam ${[...(roofFoamM > 0 ? [`${mm(roofFoamM)} under the roof`] : []), ...(wallFoamM > 0 ? [`${mm(wallFoamM)} on the walls`] : [])].join(' and ')}${bridgesFoamed ? ', rails and posts too' : ''}`
        out.push({ said, takes: { roofFoamM, wallFoamM, bridgesFoamed } })
      }
    }
  }
  return out
}

function heaters({ air, pins, gearAboveC, heated }: MenuTask): readonly Draft[] {
  const humid = pins.humidistat !== null ? [pins.humidistat] : [false, true]
  const of = (at: 'room' | 'cabinet', powerW: number, told: number | null): readonly Draft[] =>
    humid.map((humidistat) => ({
      said: `heater ${powerW} W in the ${at}${humidistat ? ', by humidity too' : ''}`,
      takes: { heater: { at, powerW, onBelowC: told ?? Math.max(air.heater?.onBelowC ?? gearAboveC, gearAboveC), humidistat } },
    }))
  const { heater } = pins
  if (heater === 'no') return [{ said: 'no heater', takes: { heater: null } }]
  if (heater !== null) return of(heater.at, heater.powerW, heater.onBelowC ?? air.heater?.onBelowC ?? null)
  return [
    ...(heated ? [] : [{ said: 'no heater', takes: { heater: null } }]),
    ...CABINET_W.flatMap((powerW) => of('cabinet', powerW, null)),
    ...ROOM_W.flatMap((powerW) => of('room', powerW, null)),
  ]
}

function yesNo(pin: boolean | null, what: string, takes: (yes: boolean) => Partial<AirDesign>): readonly Draft[] {
  const each = (yes: boolean): Draft => ({ said: yes ? what : `no ${what.replace(/^an? /, '')}`, takes: takes(yes) })
  return pin !== null ? [each(pin)] : [each(false), each(true)]
}
