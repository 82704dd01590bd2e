import type { AirDesign } from './build.ts'
import type { Design } from './design.ts'
import type { BoxWanted, Job, WiredAir } from './types.ts'

/** Choices “which box feeds this one”, `boxes.<id>.fed-from`. */
export const FED_FROM_PATH = /^boxes\.(.+)\.fed-from$/
/** Pinned to a supply of its own. */
const OWN_SUPPLY = 'none'

/** Metres of a feeder between two boxes as told at either of them, the longer where both say it; null: nobody said. */
export function distanceM(job: Pick<Job, 'boxes'>, a: string, b: string): number | null {
  const told = job.boxes.flatMap((box) => {
    const other = box.id === a ? b : box.id === b ? a : null
    return other === null ? [] : (box.distances ?? []).filter((d) => d.box === other).map((d) => d.lengthM)
  })
  return told.length === 0 ? null : Math.max(...told)
}

/** The job with some boxes fed from others; the same job where nothing differs. */
export function withFeeders(job: Job, feeders: ReadonlyMap<string, BoxWanted['fedFrom'] | null>): Job {
  let changed = false
  const boxes = job.boxes.map((box): BoxWanted => {
    const now = feeders.get(box.id)
    if (now === undefined) return box
    if ((now?.box ?? null) === (box.fedFrom?.box ?? null) && now?.lengthM === box.fedFrom?.lengthM) return box
    changed = true
    const { fedFrom: _was, ...rest } = box
    return now === null ? rest : { ...rest, fedFrom: now }
  })
  return changed ? { ...job, boxes } : job
}

/** The job with its boxes fed from one another as a design has them: what a box carries goes by what is built, not by what was written. */
export function jobAsDesigned(job: Job, design: Design): Job {
  const feeders = new Map<string, BoxWanted['fedFrom'] | null>()
  for (const box of design.boxes)
    if (!feeders.has(box.box))
      feeders.set(box.box, box.fedFrom === null ? null : { box: box.fedFrom.box, lengthM: box.fedFrom.run.lengthM })
  return withWired(withFeeders(job, feeders), new Map(design.builds.map((b) => [b.box, b.air])))
}

/** The job with heater and fan of its boxes as their designs have them; the same job where nothing differs. */
export function withWired(job: Job, airs: ReadonlyMap<string, Pick<AirDesign, 'fan' | 'heater'>>): Job {
  let changed = false
  const boxes = job.boxes.map((box): BoxWanted => {
    const air = airs.get(box.id)
    if (air === undefined) return box
    const { fan, heater } = air
    const wired: WiredAir = {
      heater: heater === null ? null : { powerW: heater.powerW, at: heater.at },
      fanW: fan === null || fan.solar ? null : fan.powerW,
    }
    if (JSON.stringify(wired) === JSON.stringify(box.wired)) return box
    changed = true
    return { ...box, wired }
  })
  return changed ? { ...job, boxes } : job
}

/** Pins `boxes.<id>.fed-from`: a box, or `none` for a supply of its own. What cannot be taken comes back as a sentence by its path. */
export function pinnedFeeders(job: Job): {
  readonly feeders: ReadonlyMap<string, BoxWanted['fedFrom'] | null>
  readonly cannot: ReadonlyMap<string, string>
} {
  const feeders = new Map<string, BoxWanted['fedFrom'] | null>()
  const cannot = new Map<string, string>()
  const ids = new Set(job.boxes.map((b) => b.id))
  for (const { path, value } of job.pins) {
    const id = FED_FROM_PATH.exec(path)?.[1]
    if (id === undefined) continue
    const from = String(value)
    const lengthM = distanceM(job, id, from)
    if (!ids.has(id)) cannot.set(path, `no box is called ${id}`)
    else if (from === OWN_SUPPLY) feeders.set(id, null)
    else if (!ids.has(from)) cannot.set(path, `no box is called ${from}`)
    else if (isBehind(withFeeders(job, feeders), from, id)) cannot.set(path, `${from} would be fed from itself`)
    else if (lengthM === null) cannot.set(path, distanceUntold(id, from))
    else feeders.set(id, { box: from, lengthM })
  }
  return { feeders, cannot }
}

export const distanceUntold = (a: string, b: string): string => `the distance between ${a} and ${b} is not known`

/** Is a box fed, over however many others, from that one? A box is behind itself. */
function isBehind(job: Job, id: string, from: string): boolean {
  const way = new Set<string>()
  for (let at: string | undefined = id; at !== undefined && !way.has(at); ) {
    if (at === from) return true
    way.add(at)
    at = job.boxes.find((b) => b.id === at)?.fedFrom?.box
  }
  return false
}
