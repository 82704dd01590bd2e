import { airThatStands, type MeasureLine, measureAreas, measuresCost, type VentTold } from '../air/index.ts'
import type { Shop } from '../assess/index.ts'
import { type AirChoice, type AirDesign, airPath, type Design, type Job, type Pin } from '../job/index.ts'
import { formatNumber } from '../kernel/index.ts'
import { type Prices, pricedMaterials } from '../parts/index.ts'
import { bodyOf } from './build.ts'
import type { Line } from './change-list-line.ts'

/** What is added: where its vents go is part of them. */
type Addable = Exclude<AirChoice, 'vent-places'>

/** One measure on top of what stands: the choice it is, as a pin, and what is bought for it. */
export interface Added {
  readonly choice: Addable
  readonly pins: readonly Pin[]
  readonly asBuilt: string
  /** Something of it is wired already, or added with its circuit by another line. */
  readonly wired: boolean
  readonly measures: readonly MeasureLine[]
}

/** Measures by the choice they are bought for. */
const MEASURES: Readonly<Record<Addable, readonly string[]>> = {
  'roof-paint': ['roof-paint'],
  'wall-paint': ['wall-paint'],
  'roof-foam': ['roof-foam'],
  'wall-foam': ['wall-foam'],
  'bridges-foamed': ['bridges-foamed'],
  'second-roof': ['second-roof'],
  vents: ['vents'],
  'winter-open': ['winter-open'],
  fan: ['fan', 'fan-solar', 'fan-by-humidity'],
  heater: ['heater-room', 'heater-cabinet'],
  humidistat: ['humidistat'],
  'drip-hood': ['drip-hood'],
  'floor-painted': ['floor-painted'],
}

const WHY: Readonly<Record<Addable, string>> = {
  'roof-paint': 'a light roof takes up less sun',
  'wall-paint': 'light walls take up less sun',
  'roof-foam': 'a warmer underside gathers less frost and water',
  'wall-foam': 'warmer walls gather less frost and water, and less heat leaves',
  'bridges-foamed': 'bare rails and posts stay cold and gather frost beside the foam',
  'second-roof': 'it shades the roof, and the roof below it radiates less to a clear night',
  vents: 'air that passes takes heat and water away',
  'winter-open': 'less cold air and blown snow pass in the months that freeze',
  fan: 'air is moved where the vents alone move too little',
  heater:
    'gear is kept above what it stands, and above the dew point; fixed and guarded, with a cut-out of its own: one that nobody watches is a fire risk',
  humidistat: 'the heater runs too while the gear is near the dew point',
  'drip-hood': 'what drips lands beside the gear',
  'floor-painted': 'the floor takes up less water',
}

/** What is wired on a circuit of its own, of which nothing is in the price here. */
const WIRED: ReadonlySet<Addable> = new Set(['fan', 'heater'])

/** What `air` has over what stands, choice by choice. */
export function additions(of: {
  readonly job: Job
  readonly shop: Shop
  readonly box: string
  readonly after: { readonly design: Design }
  readonly air: AirDesign
}): readonly Added[] {
  const { job, shop, box, air } = of
  const build = of.after.design.builds.find((b) => b.box === box)
  const had = build === undefined ? null : airThatStands(job, build)
  if (build === undefined || had === null) return []
  const { stands, vents, painted } = had
  const before = measuresOf(stands)
  const bought = measuresOf(air).filter(
    (m) => !before.some((b) => b.measure === m.measure && b.id === m.id && b.quantity === m.quantity),
  )
  return (Object.keys(MEASURES) as Addable[]).flatMap((choice): readonly Added[] => {
    const value = WORDS[choice](air)
    if (value === null || value === WORDS[choice](stands)) return []
    const pin = { path: airPath(box, choice), value, by: 'change list', why: WHY[choice] }
    return [
      {
        ...{ choice, pins: [pin], asBuilt: asBuiltWords(job, choice, stands), wired: WORDS[choice](stands) !== null },
        measures: bought.filter((m) => MEASURES[choice].includes(m.measure)),
      },
    ]
  })

  function measuresOf(design: AirDesign): readonly MeasureLine[] {
    return measuresCost({
      ...{ box, areas: measureAreas(bodyOf(job, box), build!.fit), prices: shop.prices, painted },
      air: { ...design, vents: [...design.vents, ...toldVents(vents)] },
    }).value.lines
  }
}

/** Vents that stand, as a slide is bought for each; of no size that is priced. */
const toldVents = (vents: readonly VentTold[] | null): AirDesign['vents'] =>
  (vents ?? []).map(({ id }) => ({ id, side: 'right', widthMm: 100, heightMm: 100, upMm: 0, fan: false }))

const yes = (is: boolean): string | null => (is ? 'yes' : null)
const mm = (thickM: number): string | null => (thickM > 0 ? `${Math.round(thickM * 1000)} mm` : null)

/** Each choice as a pin says it; null: there is none of it. */
const WORDS: Readonly<Record<Addable, (air: AirDesign) => string | null>> = {
  'roof-paint': (air) => air.roofPaint,
  'wall-paint': (air) => air.wallPaint,
  'roof-foam': (air) => mm(air.roofFoamM),
  'wall-foam': (air) => mm(air.wallFoamM),
  'bridges-foamed': (air) => yes(air.bridgesFoamed),
  'second-roof': (air) => yes(air.secondRoof),
  vents: ({ vents }) => {
    const own = vents.find((v) => !v.fan)
    return own === undefined ? null : `${own.widthMm} x ${own.heightMm} mm`
  },
  'winter-open': (air) => (air.winterOpenFrac < 1 ? `${Math.round(air.winterOpenFrac * 100)} %` : null),
  fan: ({ fan }) =>
    fan === null
      ? null
      : `${fan.powerW} W${fan.solar ? ' solar' : ''} above ${fan.onAboveC} C${fan.byHumidity ? ' by humidity' : ''}`,
  heater: ({ heater }) => (heater === null ? null : `${heater.powerW} W ${heater.at} below ${heater.onBelowC} C`),
  humidistat: ({ heater }) => yes(heater?.humidistat === true),
  'drip-hood': (air) => yes(air.dripHood),
  'floor-painted': (air) => yes(air.floorPainted),
}

function asBuiltWords(job: Job, choice: Addable, stands: AirDesign): string {
  const { paint, insulation, vents, heater } = job.builtBody ?? {}
  const told: Readonly<Partial<Record<Addable, string | null | undefined>>> = {
    ...{ 'roof-paint': paint, 'wall-paint': paint, 'roof-foam': insulation, 'wall-foam': insulation },
    ...{ vents, 'winter-open': vents, heater },
  }
  const has = told[choice] ?? WORDS[choice](stands) ?? 'none'
  // Nobody is asked for the fan of a box that stands: what its own circuit feeds is taken for it.
  return choice === 'fan' && stands.fan !== null ? `none told; with the circuit of a fan, ${has}` : has
}

/** One line of the list. Material alone is priced in it, as in the others; hours of its trades stand in words. */
export function lineOf({ choice, pins, asBuilt, wired, measures }: Added, prices: Prices): Omit<Line, 'codes'> {
  const [first] = measures
  const value = String(pins[0]?.value)
  const unit = { m: 'm', m2: 'm²', each: '' } as const
  const amounts = measures.map((m) => {
    const work = `${short(m.hours)} h of ${/^[aeiou]/.test(m.trade) ? 'an' : 'a'} ${m.trade}`
    return m.per === 'each' && m.quantity === 1 ? work : `${`${short(m.quantity)} ${unit[m.per]}`.trim()}, ${work}`
  })
  return {
    ...{
      tag: choice.replace('-', ' '),
      component: first?.what ?? choice.replace('-', ' '),
      asBuilt,
      action: 'add',
      quantity: 1,
      per: 'set',
    },
    needed: [...(value === 'yes' ? [] : [value]), ...amounts].join('; '),
    why: WHY[choice],
    material:
      measures.length === 0
        ? null
        : pricedMaterials(
            measures.map((m) => ({ id: m.id, quantity: m.quantity, per: m.per, for: 'air' })),
            prices,
          ),
    priceUnknown: WIRED.has(choice) && !wired && !value.includes('solar'),
    keys: [`air/${choice}`],
  }
}

const short = (value: number): string => formatNumber(value, { shortest: true })
