import { designAir } from '../air/index.ts'
import type { Shop } from '../assess/index.ts'
import { assess } from '../assess/index.ts'
import { boxBody } from '../box/index.ts'
import { type Design, type Job, UNTOLD_CLIMATE } from '../job/index.ts'
import { newMemory, type Verdict, worst } from '../kernel/index.ts'
import type { Model } from '../parts/index.ts'
import { allNormals, type Normal, toldOfNormal } from '../weather/index.ts'
import { type Bench, benchOf, builtJob } from './limits.ts'

/** The air of a model through the year of one place. */
export interface PlaceJudged {
  readonly place: string
  /** Design temperatures of the place; null: the table gives none, and the year and its short runs go by the months. */
  readonly coldC: number | null
  readonly hotC: number | null
  readonly verdict: Verdict
  /** What has that verdict, where it does not hold. */
  readonly codes: readonly string[]
}

/** In which places of the table of normals nothing of a model’s air fails. */
export interface ModelPlaces {
  readonly model: string
  readonly places: readonly PlaceJudged[]
  /** Of the places in which nothing fails: coldest and hottest month mean; null: there is none. */
  readonly coldestMonthC: number | null
  readonly hottestMonthC: number | null
}

/** The air of a model in place after place, as pieces of work. */
export interface PlacesWork {
  readonly places: readonly Normal[]
  readonly part: (place: Normal) => PlaceJudged
  readonly found: (parts: readonly PlaceJudged[]) => ModelPlaces
}

/**
 * A model put through the year of each place of table `climate-normals`, by `assess`: nothing of it typed, nothing between the places
 * guessed. As drawn: paint, foam and vents of its sheet, its machines as in the mild probe, laid out as a plan lays it out, no measure
 * against heat and damp but those it has. Where its sheet does not say what a year needs, that is unknown.
 */
export function placesWork(model: Model, shop: Shop): PlacesWork | null {
  const bench = benchOf(model, shop)
  if (bench === null) return null
  const base = builtJob(model, bench.mildest, bench.rules)
  const design = drawnAir(base, bench)
  const memory = newMemory()
  return {
    places: allNormals(),
    part: (place) => {
      const own = assess(jobAt(base, place), design, shop, { memory }).findings.filter((f) => f.question === 'air')
      const verdict = worst(own.map((f) => f.verdict))
      const codes = verdict === 'holds' ? [] : own.filter((f) => f.verdict === verdict).map((f) => f.code)
      const { coldC, hotC } = toldOfNormal(place)
      return { place: place.name, coldC: coldC ?? null, hotC: hotC ?? null, verdict, codes: [...new Set(codes)].toSorted() }
    },
    found: (parts) => {
      const means = parts.flatMap((p) => {
        const place = allNormals().find((n) => n.name === p.place)
        return p.verdict === 'fails' || p.verdict === 'unknown' || place === undefined ? [] : [toldOfNormal(place).meanC ?? []]
      })
      const months = means.flat()
      return {
        ...{ model: model.id, places: parts },
        coldestMonthC: months.length === 0 ? null : Math.min(...months),
        hottestMonthC: months.length === 0 ? null : Math.max(...months),
      }
    },
  }
}

/** Model after model, place after place: told before each how many are done of how many. */
export function* modelsInPlaces(
  models: readonly Model[],
  shop: Shop,
): Generator<{ readonly doneCount: number; readonly ofCount: number }, readonly ModelPlaces[]> {
  const works = models.flatMap((model) => placesWork(model, shop) ?? [])
  const ofCount = works.reduce((sum, work) => sum + work.places.length, 0)
  let doneCount = 0
  const out: ModelPlaces[] = []
  for (const work of works) {
    const parts: PlaceJudged[] = []
    for (const place of work.places) {
      yield { doneCount, ofCount }
      parts.push(work.part(place))
      doneCount += 1
    }
    out.push(work.found(parts))
  }
  return out
}

/** The job moved to a place: what the table does not give of it is filled as for any job there. */
function jobAt(job: Job, place: Normal): Job {
  const told = toldOfNormal(place)
  return {
    ...job,
    site: { ...job.site, place: place.name },
    climate: {
      ...UNTOLD_CLIMATE,
      ...{ latitudeDeg: place.latitudeDeg, longitudeDeg: place.longitudeDeg, elevationM: place.elevationM },
      ...{ designMinC: told.coldC, designMaxC: told.hotC, meanCByMonth: told.meanC },
    },
  }
}

/** The layout of the probe’s plan with the air that the sheet of the model tells. */
function drawnAir(job: Job, { design, fresh }: Bench): Design {
  const builds = fresh.design.builds.map((build) => {
    const wanted = job.boxes.find((b) => b.id === build.box)
    if (wanted === undefined) return build
    const designs = design.boxes.filter((b) => b.box === build.box)
    return { ...build, air: designAir({ job, body: boxBody(wanted, null), designs }) }
  })
  return { ...design, builds }
}
