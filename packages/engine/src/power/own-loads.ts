import { insideOf } from '../box/index.ts'
import { type AirPins, airPinsOf, type BoxWanted, type Job, pinnedStrips } from '../job/index.ts'
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
  return airPinned(ownLoads(box, job.site, strips), airPinsOf(job.pins, box.id))
}

const PINNED = source('pinned by a person', 'told')

/** In the order in which they are wired. */
const ORDER: readonly OwnLoad['own'][] = ['light', 'heater', 'fan', 'control', 'receptacle']

function airPinned(loads: readonly OwnLoad[], { fan, heater }: AirPins): readonly OwnLoad[] {
  if (fan === null && heater === null) return loads
  const more: OwnLoad[] = []
  if (heater !== null && heater !== 'no') {
    const said = `heater ${heater.powerW} W ${heater.at === 'cabinet' ? 'in the panel’s cabinet' : 'in the room'}, as pinned`
    more.push({ own: 'heater', powerW: heater.powerW, powerFactorFrac: 1, fromH: 0, hoursPerDay: 24, said, rests: PINNED })
  }
  if (fan !== null && fan !== 'no' && !fan.solar) {
    const said = `fan ${fan.powerW} W, as pinned`
    more.push({ own: 'fan', powerW: fan.powerW, powerFactorFrac: 0.65, fromH: 10, hoursPerDay: 8, said, rests: PINNED })
  }
  const left = loads.filter((l) => !(l.own === 'fan' && fan !== null) && !(l.own === 'heater' && heater !== null))
  return [...left, ...more].toSorted((a, b) => ORDER.indexOf(a.own) - ORDER.indexOf(b.own))
}
