import type { AirDesign } from '../../job/index.ts'
import { opticsOf } from '../surface/optics.ts'
import type { Choice } from './menu.ts'

/** What can be wrong with the air of a box, by what mends it. `room cold`: of what stands free in the room. `energy`: it holds, and costs to run. */
export const KINDS = ['hot', 'cold', 'room cold', 'roof', 'drip', 'dew', 'humid', 'mould', 'heater'] as const
export type Kind = (typeof KINDS)[number]

type Takes = Partial<AirDesign>
type Helps = (from: Takes, to: Takes) => boolean

const never: Helps = () => false
const sun = (paint: string | undefined): number => (paint === undefined ? 0 : opticsOf(paint, 3).absorptanceFrac)
const roofPaint = (one: Takes): number => sun(one.roofPaint)
const wallPaint = (one: Takes): number => sun(one.wallPaint)
const size = ({ vents = [] }: Takes): number => vents.filter((v) => !v.fan).reduce((sum, v) => sum + v.widthMm * v.heightMm, 0)
const open = (one: Takes): number => one.winterOpenFrac ?? 1
const fanOf = ({ fan }: Takes): string => (fan == null ? 'none' : fan.solar ? 'sun' : fan.byHumidity ? 'humidity' : 'heat')
/** A fan on its thermostat stands still where it is damp: as good as none there. */
const damp = (one: Takes): string => fanOf(one).replace('heat', 'none')
const foam = (one: Takes): number => (one.roofFoamM ?? 0) + (one.wallFoamM ?? 0)
const thicker: Helps = (from, to) =>
  (to.roofFoamM ?? 0) > (from.roofFoamM ?? 0) ||
  (to.wallFoamM ?? 0) > (from.wallFoamM ?? 0) ||
  (foam(to) > 0 && to.bridgesFoamed === true && from.bridgesFoamed !== true)
/** Keeps the cold sky off and the sun too: a wet box may want it gone. */
const otherSecond: Helps = (from, to) => (to.secondRoof === true) !== (from.secondRoof === true)
const otherFoam: Helps = (from, to) => thicker(from, to) || thicker(to, from)
const second: Helps = (from, to) => to.secondRoof === true && from.secondRoof !== true
const hood: Helps = (from, to) => to.dripHood === true && from.dripHood !== true
const painted: Helps = (from, to) => to.floorPainted === true && from.floorPainted !== true
const stronger: Helps = ({ heater: from }, { heater: to }) =>
  to != null && (from == null || from.at !== to.at || to.powerW > from.powerW || to.onBelowC > from.onBelowC)
const warmer: Helps = (from, to) => stronger(from, to) || (to.heater?.humidistat === true && from.heater?.humidistat !== true)
const holdable: Helps = (from, to) =>
  to.heater == null || stronger(from, to) || (from.heater != null && to.heater.onBelowC < from.heater.onBelowC)
const breathes: Helps = (from, to) => size(to) !== size(from) || open(to) !== open(from) || damp(to) !== damp(from)
const shuts: Helps = (from, to) =>
  size(to) < size(from) || open(to) < open(from) || (fanOf(from) === 'humidity' && fanOf(to) !== 'humidity')

const WET: Readonly<Record<Choice, Helps>> = {
  'roof paint': (from, to) => roofPaint(to) > roofPaint(from),
  'wall paint': (from, to) => wallPaint(to) > wallPaint(from),
  air: breathes,
  foam: otherFoam,
  'second roof': otherSecond,
  heater: warmer,
  'drip hood': never,
  'floor paint': painted,
}
const COLD: Readonly<Record<Choice, Helps>> = {
  'roof paint': never,
  'wall paint': never,
  air: shuts,
  foam: thicker,
  'second roof': second,
  heater: stronger,
  'drip hood': never,
  'floor paint': never,
}

/**
 * May another option of one choice mend what is wrong? What helps nothing here is never tried for it: a set that differs from a failed one
 * only so fails too.
 */
const HELPS: Readonly<Record<Kind | 'energy', Readonly<Record<Choice, Helps>>>> = {
  hot: {
    'roof paint': (from, to) => roofPaint(to) < roofPaint(from),
    'wall paint': (from, to) => wallPaint(to) < wallPaint(from),
    air: (from, to) => size(to) > size(from) || (fanOf(to) !== 'none' && fanOf(to) !== fanOf(from)),
    foam: (from, to) => thicker(from, to) || foam(to) < foam(from),
    'second roof': second,
    // A cabinet that a heater stands in is shut closer about its gear.
    heater: (from, to) => from.heater?.at === 'cabinet' && to.heater?.at !== 'cabinet',
    'drip hood': never,
    'floor paint': never,
  },
  cold: COLD,
  // What heats a cabinet ends up in the room.
  'room cold': { ...COLD, heater: warmer },
  heater: { ...COLD, heater: holdable },
  roof: WET,
  drip: { ...WET, 'drip hood': hood },
  dew: WET,
  humid: WET,
  mould: WET,
  energy: {
    ...COLD,
    heater: ({ heater: from }, { heater: to }) =>
      from != null &&
      (to == null ||
        to.at !== from.at ||
        to.powerW < from.powerW ||
        to.onBelowC < from.onBelowC ||
        (from.humidistat && !to.humidistat)),
    'roof paint': (from, to) => roofPaint(to) > roofPaint(from),
    'wall paint': (from, to) => wallPaint(to) > wallPaint(from),
    'floor paint': painted,
    air: (from, to) => shuts(from, to) || fanOf(to) !== fanOf(from),
  },
}

export const mayHelp = (kind: Kind | 'energy', choice: Choice, from: Takes, to: Takes): boolean => HELPS[kind][choice](from, to)
