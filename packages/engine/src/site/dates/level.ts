import { type Activity, checkOrder, latest, type Passed, runs, SAME_D } from './network.ts'

/** An activity with the crews it takes, of each so many. */
export interface Crewed extends Activity {
  readonly crews?: Readonly<Record<string, number>>
}

export interface Levelled {
  readonly passed: readonly Passed[]
  /** For each activity, those whose crew it takes over: they are finished before it begins. */
  readonly behind: readonly (readonly number[])[]
}

/**
 * When each activity can be done with so much of each crew: nothing is moved before it can begin, and no crew is asked for more than there is.
 * One after another, the one whose latest start comes first goes next among those whose predecessors have their place (then the longer, then
 * the one that stands first), at the first moment from which on its crews are free to its end. A good schedule, not proved to be the shortest.
 *
 * @source serial schedule generation with the rule of the latest start: Kelley, in Muth and Thompson (eds.), Industrial Scheduling (1963);
 *   Kolisch, European Journal of Operational Research 90 (1996) 320. Provenance: memory
 */
export function levelled(
  net: readonly Crewed[],
  fromD: number,
  capacity: (crew: string) => number,
  latestStartD: readonly number[],
): Levelled {
  checkOrder(net)
  const passed = new Array<Passed>(net.length)
  const placed = new Set<number>()
  while (placed.size < net.length) {
    const next = nextOf(net, placed, latestStartD)
    passed[next] = placeOf(net, next, passed, [...placed], fromD, capacity)
    placed.add(next)
  }
  return { passed, behind: net.map((a, i) => takenOver(net, passed, a, i, capacity)) }
}

function nextOf(net: readonly Crewed[], placed: ReadonlySet<number>, latestStartD: readonly number[]): number {
  let best = -1
  for (const [i, a] of net.entries()) {
    if (placed.has(i) || a.after.some((p) => !placed.has(p))) continue
    if (best < 0) best = i
    else {
      const [one, other] = [latestStartD[i]!, latestStartD[best]!]
      if (one < other - SAME_D || (one <= other + SAME_D && a.takesDays > net[best]!.takesDays)) best = i
    }
  }
  return best
}

function placeOf(
  net: readonly Crewed[],
  i: number,
  passed: readonly Passed[],
  placed: readonly number[],
  fromD: number,
  capacity: (crew: string) => number,
): Passed {
  const a = net[i]!
  if (a.doneD !== undefined) return { startD: a.doneD, finishD: a.doneD }
  let from = Math.max(fromD, a.notBeforeD ?? -Infinity)
  for (const p of a.after) from = Math.max(from, passed[p]!.finishD)
  if (from === Infinity) return { startD: Infinity, finishD: Infinity }
  const own = rivals(net, a, placed)
  // It can begin as soon as it may, or the moment one of its rivals hands over.
  const moments = [from, ...own.map((p) => passed[p]!.finishD).filter((d) => d > from)].toSorted((x, y) => x - y)
  for (const at of moments) {
    if (at === Infinity) break
    const run = runs(a, at)
    if (fits(net, a, run, own, passed, capacity)) return run
  }
  return { startD: Infinity, finishD: Infinity }
}

/** Those that take one of its crews. */
const rivals = (net: readonly Crewed[], a: Crewed, among: readonly number[]): readonly number[] =>
  a.takesDays === 0
    ? []
    : among.filter((p) => {
        const b = net[p]!
        return b.doneD === undefined && b.takesDays > 0 && Object.keys(a.crews ?? {}).some((crew) => (b.crews?.[crew] ?? 0) > 0)
      })

/** Crews are asked for most at its start, or where a rival begins within it. */
function fits(
  net: readonly Crewed[],
  a: Crewed,
  run: Passed,
  own: readonly number[],
  passed: readonly Passed[],
  capacity: (crew: string) => number,
): boolean {
  const within = own.filter((p) => passed[p]!.startD < run.finishD - SAME_D && passed[p]!.finishD > run.startD + SAME_D)
  const moments = [run.startD, ...within.map((p) => passed[p]!.startD).filter((d) => d > run.startD)]
  return Object.entries(a.crews ?? {}).every(([crew, wanted]) =>
    moments.every((at) => {
      const busy = within.filter((p) => passed[p]!.startD <= at + SAME_D && passed[p]!.finishD > at + SAME_D)
      return busy.reduce((sum, p) => sum + (net[p]!.crews?.[crew] ?? 0), wanted) <= capacity(crew) + SAME_D
    }),
  )
}

/** The last to leave each crew before it begins; without them it could not. Where no crew can run short, nobody is waited for. */
function takenOver(
  net: readonly Crewed[],
  passed: readonly Passed[],
  a: Crewed,
  i: number,
  capacity: (crew: string) => number,
): readonly number[] {
  if (a.doneD !== undefined || a.takesDays === 0) return []
  const all = net.map((_, p) => p).filter((p) => p !== i)
  const crews = Object.entries(a.crews ?? {})
  return rivals(net, a, all).filter(
    (p) =>
      passed[p]!.finishD <= passed[i]!.startD + SAME_D &&
      crews.some(([crew]) => {
        const taking = all.reduce((sum, q) => sum + (net[q]!.crews?.[crew] ?? 0), 0) + (a.crews![crew] ?? 0)
        return (net[p]!.crews?.[crew] ?? 0) > 0 && taking > capacity(crew) + SAME_D
      }),
  )
}

/** Rule by which activities are put: latest start such that the ends are not moved, everything but crews counted. */
export const latestStarts = (net: readonly Activity[], ends: readonly number[], byD: number): readonly number[] =>
  latest(net, ends, byD).map((p) => p.startD)

/**
 * Each behind those it waits for, its crew's last work among them, as near to its old place as that allows: the places of the old list in the
 * new order. From then on the order of the crews stands, whatever a time turns out to be.
 */
export function orderOf(net: readonly Activity[], behind: Levelled['behind']): readonly number[] {
  const order: number[] = []
  const done = new Set<number>()
  while (order.length < net.length) {
    const next = net.findIndex((a, i) => !done.has(i) && [...a.after, ...behind[i]!].every((p) => done.has(p)))
    order.push(next)
    done.add(next)
  }
  return order
}
