import { type AirAtHand, airAtHand, airWith, type WeatherGiven } from '../air/index.ts'
import { type Assessment, rulesOf, type Shop } from '../assess/index.ts'
import { type BoxBody, boxBody } from '../box/index.ts'
import { type AirChoice, airPath, airPinsOf, type Design, type Job, jobAsDesigned } from '../job/index.ts'
import { skinOf } from './build.ts'

export interface PlannedAir {
  /** As it was planned. */
  readonly stands: AirAtHand
  /** With other choices of air, as pins would make them: its vents cut anew, all else of the box as it hangs. Words that no pin takes: what is wanted. */
  readonly tried: (
    pins: Readonly<Partial<Record<AirChoice, string>>>,
  ) => { readonly hand: AirAtHand } | { readonly unread: readonly { readonly path: string; readonly wanted: string }[] }
}

/** The air of one box of a planned job, for a person who looks at its year and tries what would mend it. Null: its year is not run. */
export function plannedAir(of: {
  readonly job: Job
  readonly design: Design
  readonly shop: Shop
  readonly assessment: Pick<Assessment, 'results'>
  readonly weather: WeatherGiven | null
  readonly box: string
}): PlannedAir | null {
  const { design, shop, box } = of
  const job = jobAsDesigned(of.job, design)
  const rules = rulesOf(job, shop)
  const { reach, haul } = of.assessment.results
  const bodies: Readonly<Record<string, BoxBody>> = Object.fromEntries(
    job.boxes.map((wanted) => [wanted.id, boxBody(wanted, job.surveys.find((s) => s.box === wanted.id) ?? null)]),
  )
  const stands = airAtHand(
    {
      ...{ job, design, bodies, rules, reach: reach.boxes, weather: of.weather },
      weighed: Object.fromEntries(haul.boxes.map((b) => [b.box, b.items])),
    },
    box,
  )
  const body = bodies[box]
  const build = design.builds.find((b) => b.box === box)
  if (stands === null || body === undefined || build === undefined) return null
  const designs = design.boxes.filter((b) => b.box === box)
  return {
    stands,
    tried: (pins) => {
      const changed = Object.entries(pins).map(([choice, value]) => ({
        ...{ path: airPath(box, choice as AirChoice), value, by: 'trial', why: '' },
      }))
      const read = airPinsOf(changed, box)
      if (read.unread.length > 0) return { unread: read.unread.map(({ pin, wanted }) => ({ path: pin.path, wanted })) }
      // Places that are kept stay as they are where the vents change their size.
      const ventPlaces = read.ventPlaces ?? airPinsOf(job.pins, box).ventPlaces
      const air = airWith(build.air, { ...read, ventPlaces }, body)
      const paths = new Set(changed.map((pin) => pin.path))
      const all = [...job.pins.filter((pin) => !paths.has(pin.path)), ...changed]
      return { hand: stands.built({ pins: all, air, skin: skinOf({ job, designs, body, air, rules }) }) }
    },
  }
}
