import { SIDES } from '../../job/index.ts'
import { exp, Fault, log } from '../../kernel/index.ts'
import type { BoxModel } from '../year/types.ts'
import type { Unknown } from './unknown.ts'

/** What of a box a log may be asked for. One more is one more row of `KINDS`. */
export const BOX_UNKNOWNS = ['leakage', 'roof-absorptance', 'gear-mass'] as const
export type BoxUnknown = (typeof BOX_UNKNOWNS)[number]

interface Kind {
  readonly of: (model: BoxModel) => Unknown
  readonly put: (model: BoxModel, value: number) => BoxModel
}

/** Steel and copper, with the share of both in a panel. @source air reference, section 7: 0.48 kJ/kgK. Provenance: common practice */
export const GEAR_HEAT_J_PER_KG_K = 480
/**
 * Air changes at 50 Pa from the tightest box there is to one with open seams, vents shut.
 * @source table box-leakage: a fumigation-tight box 0.21 per h, a cut one 15–40 per h (computed; common practice). Ends set beyond both
 */
const CHANGES_PER_H = [0.1, 80] as const
/** From white new paint to black. @source table surface-optics, 0.19 to 0.96 (read), ends set beyond both */
const ABSORPTANCE = [0.1, 0.98] as const
/** From a bare box with a lamp to one full of transformers. Common practice */
const GEAR_KG = [20, 5000] as const
const PRESSURE_PA = 50
const ROOF = SIDES.indexOf('roof')

const KINDS: Readonly<Record<BoxUnknown, Kind>> = {
  leakage: {
    of: (model) => {
      const [low, high] = CHANGES_PER_H.map((n) => n * model.volumeM3) as [number, number]
      const start = leakM3PerHAt50Pa(model)
      return {
        ...words('leakage', 'air let through at 50 Pa, vents shut', 'm3/h'),
        spread: 'ratio',
        low,
        high,
        start: within(start, low, high),
        toldWithin: { value: 2 },
      }
    },
    put: (model, value) => ({ ...model, leakM3SAt1Pa: value / 3600 / powerOf(PRESSURE_PA, model.leakExponent) }),
  },
  'roof-absorptance': {
    of: (model) => {
      const [low, high] = ABSORPTANCE
      const start = roofOf(model).absorptanceFrac
      return {
        ...words('roof-absorptance', 'share of the sun that the roof takes in', '1'),
        spread: 'even',
        low,
        high,
        start: within(start, low, high),
        toldWithin: { value: 0.15 },
      }
    },
    put: (model, value) => ({ ...model, faces: model.faces.with(ROOF, { ...roofOf(model), absorptanceFrac: value }) }),
  },
  'gear-mass': {
    of: (model) => {
      const [low, high] = GEAR_KG
      const start = model.gear.heatJPerK / GEAR_HEAT_J_PER_KG_K
      return {
        ...words('gear-mass', 'steel and copper that warm with the air', 'kg'),
        spread: 'ratio',
        low,
        high,
        start: within(start, low, high),
        toldWithin: { value: 2 },
      }
    },
    put: (model, value) => ({ ...model, gear: { ...model.gear, heatJPerK: value * GEAR_HEAT_J_PER_KG_K } }),
  },
}

const words = (id: BoxUnknown, said: string, unit: string) => ({ id, said, unit })
const within = (value: number, low: number, high: number) => ({ value: Math.min(high, Math.max(low, value)) })
const powerOf = (x: number, y: number): number => exp(y * log(x))

function roofOf(model: BoxModel): BoxModel['faces'][number] {
  const roof = model.faces[ROOF]
  if (roof === undefined) throw new Fault('air/no-roof', model.box)
  return roof
}

/** Q = C·50ⁿ in m³/h. */
export const leakM3PerHAt50Pa = (model: Pick<BoxModel, 'leakM3SAt1Pa' | 'leakExponent'>): number =>
  model.leakM3SAt1Pa * powerOf(PRESSURE_PA, model.leakExponent) * 3600

/** The unknowns of a box, each beginning at what the box is taken to be. @throws Fault `air/no-roof` */
export const boxUnknowns = (model: BoxModel, ids: readonly BoxUnknown[] = BOX_UNKNOWNS): readonly Unknown[] =>
  ids.map((id) => KINDS[id].of(model))

/** The box with these values in the place of its own. */
export const modelWith = (model: BoxModel, values: readonly number[], ids: readonly BoxUnknown[] = BOX_UNKNOWNS): BoxModel =>
  ids.reduce((now, id, k) => KINDS[id].put(now, values[k] as number), model)
