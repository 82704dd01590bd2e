import { insideOf } from '../box/index.ts'
import { type BoxWanted, type Job, pinnedStrips } from '../job/index.ts'
import { leastStrips, type OwnLoad, ownLoads } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'

/** The box's own loads: as many strips of light as a person pinned, else the least that light its panel's face between dark walls. */
export function ownLoadsOf(
  job: Pick<Job, 'site' | 'surveys' | 'pins'>,
  box: BoxWanted,
  rules: Pick<RuleSet, 'build'>,
): readonly OwnLoad[] {
  const survey = job.surveys.find((s) => s.box === box.id) ?? null
  const strips =
    pinnedStrips(job.pins, box.id) ?? leastStrips({ insideMm: insideOf(box, survey), levelLx: rules.build.panelLux.value })
  return ownLoads(box, job.site, strips)
}
