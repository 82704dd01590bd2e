import { type AirChoice, type AirDesign, airPath, airPinsOf, type BoxBuild, type Pin } from '../../job/index.ts'
import { airAsBuilt, builtAirOf, type VentTold } from '../facts/built.ts'
import { type Paints, paintsOf } from '../facts/paint.ts'
import { measureAreas } from '../measures/areas.ts'
import { measuresCost } from '../measures/cost.ts'
import type { AirJob } from '../model/box-model.ts'
import { leastMeasures } from './choose.ts'
import { type AirChoiceTask, type AirFound, type BoxAtChoice, boxAtChoice, MOST_HOURS, withHottest } from './choose-air.ts'
import { CHOICES, type Menu, type Option } from './menu.ts'

const WINTER_FRAC = 0.2

/**
 * What is added to a box that stands: least cost among the sets in which nothing of its air fails. What is built stays and costs nothing:
 * no vent is taken out, no foam torn off, no heater replaced. Null where no box stands.
 */
export function chooseAdditions(task: AirChoiceTask): AirFound | null {
  const had = airThatStands(task.job, task.build)
  if (had === null) return null
  const { box } = task.build
  const { stands, vents: told } = had
  const at = boxAtChoice({ ...task, job: asChoices(task.job, box, stands, told), build: { ...task.build, air: stands } })
  const menu = additionsTo(at, told, throttleMoney(task, stands, told))
  return withHottest(at, leastMeasures({ ...at, menu, energy: task.energy, mostH: task.mostH ?? MOST_HOURS }))
}

interface AirThatStands {
  /** With what a person pinned on top of it. */
  readonly stands: AirDesign
  /** Its vents where they were told and none are pinned. */
  readonly vents: readonly VentTold[] | null
  readonly painted: Paints
}

/** What a box that stands has. Null: none stands. */
export function airThatStands(job: AirJob, { box, air }: Pick<BoxBuild, 'box' | 'air'>): AirThatStands | null {
  const built = builtAirOf(job)
  if (built === null) return null
  const at = `air.${box}.`
  const pinned = new Set(job.pins.flatMap((p) => (p.path.startsWith(at) ? [p.path.slice(at.length)] : [])))
  const vents = pinned.has('vents') ? null : built.value.vents
  return { stands: withVents(airAsBuilt(air, built.value, pinned), vents), vents, painted: paintsOf(job, box).value }
}

/** Vents that were told are as they are, whatever is cut beside them; where there are none, none are designed. */
const withVents = (air: AirDesign, told: readonly VentTold[] | null): AirDesign =>
  told === null ? air : { ...air, vents: air.vents.filter((v) => v.fan) }

/**
 * The job with what stands as choices that are made: its words of foam and heater are then no longer read, so that what is tried on top of
 * them counts. What was told of vents stays where there are any.
 */
function asChoices(job: AirJob, box: string, stands: AirDesign, told: readonly VentTold[] | null): AirJob {
  const { insulation: _foam, heater: _heater, ...body } = job.builtBody!
  const has: readonly (readonly [AirChoice, string])[] = [
    ...(stands.roofFoamM > 0 ? [['roof-foam', `${stands.roofFoamM * 1000} mm`] as const] : []),
    ...(stands.wallFoamM > 0 ? [['wall-foam', `${stands.wallFoamM * 1000} mm`] as const] : []),
    ...(stands.heater === null ? [] : [['heater', `${stands.heater.powerW} W ${stands.heater.at}`] as const]),
    ...(stands.heater?.humidistat === true ? [['humidistat', 'yes'] as const] : []),
    ...(told !== null && told.length > 0 ? [['vents', 'no'] as const] : []),
  ]
  const pins = has
    .filter(([choice]) => !job.pins.some((p) => p.path === airPath(box, choice)))
    .map(([choice, value]): Pin => ({ path: airPath(box, choice), value, by: 'built', why: '' }))
  return {
    ...job,
    pins: [...job.pins, ...pins],
    // A heater is added where something fails without one, and not for a wish that nothing judges.
    boxes: job.boxes.map((b) => (b.id === box ? { ...b, heatedC: null } : b)),
    builtBody: { ...body, vents: told === null || told.length === 0 ? null : body.vents },
  }
}

/** The menu with each option at what it costs more than what stands; vents that were told stay, open or with a slide. */
function additionsTo({ menu, base }: BoxAtChoice, told: readonly VentTold[] | null, slideMoney: number | null): Menu {
  const options = Object.fromEntries(
    CHOICES.map((choice) => {
      const all =
        choice === 'air' && told !== null && told.length > 0
          ? withSlides(menu.options.air, base, slideMoney)
          : menu.options[choice]
      const same = all.find((o) => Object.entries(o.takes).every(([name, value]) => is(base[name as keyof AirDesign], value)))
      const money = same?.money ?? 0
      return [
        choice,
        all
          .map((o) => ({ ...o, money: Math.round((o.money - money) * 100) / 100 }))
          .toSorted((a, b) => Number(b.takes === same?.takes) - Number(a.takes === same?.takes) || a.money - b.money),
      ]
    }),
  ) as unknown as Menu['options']
  return { ...menu, options }
}

const is = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b)

function withSlides(airs: readonly Option[], base: AirDesign, slideMoney: number | null): readonly Option[] {
  const said = (o: Option, more: string): string => o.said.replace('no vents', `vents as built${more}`)
  const open = airs.map((o) => ({ ...o, said: said(o, ''), takes: { ...o.takes, winterOpenFrac: base.winterOpenFrac } }))
  if (slideMoney === null || base.winterOpenFrac < 1) return open
  const slid = airs.map((o) => ({
    ...o,
    said: said(o, ` with a slide, ${WINTER_FRAC * 100} % open in winter`),
    takes: { ...o.takes, winterOpenFrac: WINTER_FRAC },
    money: o.money + slideMoney,
  }))
  return [...open, ...slid]
}

/** A slide for each vent that was told; null: no month freezes, it has none, or the price is missing. */
function throttleMoney(
  { job, build, body, prices }: AirChoiceTask,
  stands: AirDesign,
  told: readonly VentTold[] | null,
): number | null {
  if (told === null || told.length === 0 || !(job.climate?.meanCByMonth ?? []).some((c) => c < 0)) return null
  if (airPinsOf(job.pins, build.box).winterOpenFrac !== null) return null
  const vents = told.map((v) => ({ id: v.id, side: 'right' as const, widthMm: 300, heightMm: 300, upMm: 0, fan: false }))
  const { value } = measuresCost({
    ...{ box: build.box, areas: measureAreas(body, build.fit), prices },
    painted: paintsOf(job, build.box).value,
    air: { ...stands, vents, winterOpenFrac: WINTER_FRAC },
  })
  return value.lines.find((l) => l.measure === 'winter-open')?.money ?? null
}
