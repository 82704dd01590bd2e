import type { AirDesign } from '../../job/index.ts'
import { COAT_UNTOLD, opticsOf } from '../surface/optics.ts'
import { KINDS, type Kind, mayHelp } from './kinds.ts'
import { CHOICES, type Menu, type Option } from './menu.ts'

/** One option of each choice, by its place on the menu. */
export type Picks = readonly number[]
type Choice = (typeof CHOICES)[number]

export interface MenuTask {
  readonly menu: Menu
  /** Set of what the menu leaves as it is. */
  readonly base: AirDesign
}

export const key = (picks: Picks): string => picks.join(' ')
export const optionAt = ({ menu }: Pick<MenuTask, 'menu'>, choice: Choice, at: number): Option =>
  menu.options[choice][at] as Option
/** What a set costs at once. */
export const firstOf = (task: Pick<MenuTask, 'menu'>, picks: Picks): number =>
  Math.round(100 * CHOICES.reduce((sum, choice, i) => sum + optionAt(task, choice, picks[i]!).money, 0)) / 100

export const airOf = (task: MenuTask, picks: Picks): AirDesign =>
  CHOICES.reduce((air, choice, i) => ({ ...air, ...(task.menu.options[choice][picks[i]!] as Option).takes }), task.base)

/** Sets that do most against one kind: with the least and with the most of what may turn either way. */
export function strongest(menu: Menu, kind: Kind): readonly Picks[] {
  const most = (choice: (typeof CHOICES)[number], rank: (takes: Option['takes']) => number): number => {
    const options = menu.options[choice]
    return options.reduce((best, o, at) => (rank(o.takes) > rank(options[best]!.takes) ? at : best), 0)
  }
  const vents = ({ vents: of = [] }: Option['takes']): number => of.reduce((sum, v) => sum + v.widthMm * v.heightMm, 0) / 1e6
  const foamM = (t: Option['takes']): number => (t.roofFoamM ?? 0) + (t.wallFoamM ?? 0) + (t.bridgesFoamed === true ? 0.001 : 0)
  const watts = ({ heater }: Option['takes']): number => (heater == null ? 0 : heater.powerW + (heater.humidistat ? 1 : 0))
  const light = (t: Option['takes']): number => -opticsOf(t.roofPaint ?? t.wallPaint ?? COAT_UNTOLD, 3).absorptanceFrac
  const heaters: readonly number[] =
    kind === 'hot'
      ? [most('heater', (t) => -watts(t) - (t.heater?.at === 'cabinet' ? 1e6 : 0))]
      : [
          most('heater', (t) => watts(t) + (t.heater?.at === 'cabinet' ? 1e6 : 0)),
          most('heater', (t) => watts(t) + (t.heater?.at === 'room' ? 1e6 : 0)),
        ]
  const airs =
    kind === 'hot'
      ? [most('air', (t) => vents(t) + (t.fan == null ? 0 : 10 + t.fan.powerW))]
      : [
          most('air', (t) => -vents(t) - (t.winterOpenFrac ?? 1)),
          most('air', (t) => vents(t) + (t.fan?.byHumidity === true ? 10 : 0)),
        ]
  const foams = [most('foam', foamM), most('foam', (t) => -foamM(t))]
  const paint = (choice: 'roof paint' | 'wall paint') => most(choice, (t) => (kind === 'hot' ? light(t) : -light(t)))
  return heaters.flatMap((heater) =>
    airs.flatMap((air) =>
      foams.map((foam): Picks => {
        const at: Readonly<Record<(typeof CHOICES)[number], number>> = {
          ...{ 'roof paint': paint('roof paint'), 'wall paint': paint('wall paint'), air, foam, heater },
          'second roof': most('second roof', (t) => (t.secondRoof === true ? 1 : 0)),
          'drip hood': most('drip hood', (t) => (t.dripHood === true ? 1 : 0)),
          'floor paint': most('floor paint', (t) => (t.floorPainted === true ? 1 : 0)),
        }
        return CHOICES.map((choice) => at[choice])
      }),
    ),
  )
}

/** Whether another option of a choice, the `i`th, may help against a kind. */
export type Ways = (kind: Kind | 'energy', i: number, from: number, to: number) => boolean

/** `mayHelp` of every pair of options of a menu, worked out once: the search asks it of every failed set, for every choice. */
export function waysOf(menu: Menu): Ways {
  const known = Object.fromEntries(
    [...KINDS, 'energy' as const].map((kind) => [
      kind,
      CHOICES.map((choice) => {
        const all = menu.options[choice]
        return all.map((from) => Uint8Array.from(all, (to) => Number(mayHelp(kind, choice, from.takes, to.takes))))
      }),
    ]),
  ) as unknown as Readonly<Record<Kind | 'energy', readonly (readonly Uint8Array[])[]>>
  return (kind, i, from, to) => known[kind][i]![from]![to] === 1
}

/** Sets that differ in one choice which may help. */
export function* helping(menu: Menu, ways: Ways, picks: Picks, kind: Kind | 'energy'): Generator<Picks> {
  for (const [i, choice] of CHOICES.entries())
    for (let at = 0; at < menu.options[choice].length; at += 1)
      if (at !== picks[i] && ways(kind, i, picks[i]!, at)) yield picks.with(i, at)
}
