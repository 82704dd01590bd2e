import { insideOf } from '../box/index.ts'
import { type AirPins, airPinsOf, type BoxWanted, type Job, pinnedStrips, type WiredAir } from '../job/index.ts'
import { source } from '../kernel/index.ts'
import { leastStrips, type OwnLoad, ownLoads } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'

/**
 * The box's own loads: as many strips of light as a person pinned, else the least that light its panel's face between dark walls; heater
 * and fan as pinned. A fan that a panel in the sun drives is no load.
 */
export function ownLoadsOf(
  job: Pick<Job, 'site' | 'surveys' | 'pins'>,
  box: BoxWanted,
  rules: Pick<RuleSet, 'build'>,
): readonly OwnLoad[] {
  const survey = job.surveys.find((s) => s.box === box.id) ?? null
  const strips =
    pinnedStrips(job.pins, box.id) ?? leastStrips({ insideMm: insideOf(box, survey), levelLx: rules.build.panelLux.value })
  return airPinned(asWired(ownLoads(box, job.site, strips), box), airPinsOf(job.pins, box.id))
}

const CHOSEN = source('chosen against heat and damp, by the hours of the year', 'computed')

/**
 * Heater and fan as the design of the box has them. A circuit only grows: where the house rule wires for more, it stays wired for that, and a
 * smaller one that was chosen hangs on it.
 */
function asWired(loads: readonly OwnLoad[], { wired }: BoxWanted): readonly OwnLoad[] {
  if (wired === undefined) return loads
  const { heater, fanW } = wired
  const larger = (chosen: OwnLoad): readonly OwnLoad[] => {
    const stays = loads.filter((l) => l.own === chosen.own && l.powerW >= chosen.powerW)
    return stays.length > 0 ? stays : [{ ...chosen, rests: CHOSEN }]
  }
  return inOrder([
    ...loads.filter((l) => l.own !== 'fan' && l.own !== 'heater'),
    ...(heater === null ? [] : larger(heaterLoad(heater, `heater ${heater.powerW} W ${PLACES[heater.at]}`))),
    ...(fanW === null ? [] : larger(fanLoad(fanW, `fan ${fanW} W`))),
  ])
}

const PLACES = { room: 'in the room', cabinet: 'in the panel’s cabinet' } as const

const heaterLoad = ({ powerW, at }: NonNullable<WiredAir['heater']>, said: string): OwnLoad => ({
  ...{ own: 'heater' as const, powerW, powerFactorFrac: 1, fromH: 0, hoursPerDay: 24, said, rests: PINNED },
  ...(at === 'cabinet' ? { at } : {}),
})
const fanLoad = (powerW: number, said: string): OwnLoad => ({
  ...{ own: 'fan' as const, powerW, powerFactorFrac: 0.65, fromH: 10, hoursPerDay: 8, said, rests: PINNED },
})

const PINNED = source('pinned by a person', 'told')

const inOrder = (loads: readonly OwnLoad[]): readonly OwnLoad[] =>
  loads.toSorted((a, b) => ORDER.indexOf(a.own) - ORDER.indexOf(b.own))

/** In the order in which they are wired. */
const ORDER: readonly OwnLoad['own'][] = ['light', 'heater', 'fan', 'control', 'receptacle']

function airPinned(loads: readonly OwnLoad[], { fan, heater }: AirPins): readonly OwnLoad[] {
  if (fan === null && heater === null) return loads
  const more: OwnLoad[] = []
  if (heater !== null && heater !== 'no')
    more.push(heaterLoad(heater, `heater ${heater.powerW} W ${PLACES[heater.at]}, as pinned`))
  if (fan !== null && fan !== 'no' && !fan.solar) more.push(fanLoad(fan.powerW, `fan ${fan.powerW} W, as pinned`))
  const left = loads.filter((l) => !(l.own === 'fan' && fan !== null) && !(l.own === 'heater' && heater !== null))
  return inOrder([...left, ...more])
}
