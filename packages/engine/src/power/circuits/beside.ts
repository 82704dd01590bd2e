import { axisLengthMm, type FitDesign, NIPPLE_MOST_M, wirewayRuns, wirewaySections } from '../../job/index.ts'

/** Circuits that lie together with one at some place of its run. */
export interface Bunch {
  readonly in: 'raceway' | 'wireway'
  /** The others, rising; itself where it comes by a second time. */
  readonly others: readonly string[]
}

/**
 * What lies together with each circuit, place by place: in every raceway longer than a nipple, and at every section of a wireway. A place
 * at which fewer of the same lie counts nothing and is left out. What shares a raceway by design is among them.
 */
export function besideIn(fit: Pick<FitDesign, 'items' | 'raceways'>): Readonly<Record<string, readonly Bunch[]>> {
  const all: { readonly in: Bunch['in']; readonly circuits: readonly string[] }[] = [
    ...fit.raceways.flatMap((r) =>
      r.circuits.length < 2 || axisLengthMm(r.pointsMm) / 1000 <= NIPPLE_MOST_M
        ? []
        : [{ in: 'raceway' as const, circuits: r.circuits }],
    ),
    ...wirewaySections(wirewayRuns(fit)).flatMap((s) =>
      s.circuits.length < 2 ? [] : [{ in: 'wireway' as const, circuits: s.circuits }],
    ),
  ]
  const most = all.filter((a, i) => !all.some((b, k) => k !== i && a.in === b.in && isWithin(a.circuits, b.circuits, k < i)))
  const beside = new Map<string, Bunch[]>()
  for (const { in: where, circuits } of most)
    for (const c of circuits) {
      const bunches = beside.get(c) ?? []
      const others = circuits.filter((o, i) => o !== c || i !== circuits.indexOf(c)).toSorted()
      if (!bunches.some((b) => b.in === where && b.others.join() === others.join())) bunches.push({ in: where, others })
      beside.set(c, bunches)
    }
  return Object.fromEntries(beside)
}

/** Are all of these among those; of two alike the first stays. */
function isWithin(a: readonly string[], b: readonly string[], first: boolean): boolean {
  if (a.length > b.length || (a.length === b.length && !first)) return false
  const count = (all: readonly string[], c: string) => all.filter((o) => o === c).length
  return a.every((c) => count(a, c) <= count(b, c))
}

/** Circuits and load-carrying conductors of the others at the place where most lie. */
export interface Crowd {
  readonly circuits: number
  readonly othersCarrying: number
}

/**
 * The place of a circuit's run that counts most. In a wireway as many carrying conductors as the rule set says lie as if alone.
 * `mates`: those that share its raceway by design, at every place.
 */
export function worstCrowd(of: {
  readonly mates: readonly string[]
  readonly bunches: readonly Bunch[]
  readonly own: number
  readonly carrying: (circuit: string) => number
  readonly uncountedTo: number
}): Crowd {
  const crowd = (ids: readonly string[]): Crowd => ({
    circuits: 1 + ids.length,
    othersCarrying: ids.reduce((n, id) => n + of.carrying(id), 0),
  })
  let worst = crowd(of.mates)
  for (const bunch of of.bunches) {
    const here = crowd([...bunch.others, ...of.mates.filter((m) => !bunch.others.includes(m))])
    if (bunch.in === 'wireway' && of.own + here.othersCarrying <= of.uncountedTo) continue
    if (
      here.othersCarrying > worst.othersCarrying ||
      (here.othersCarrying === worst.othersCarrying && here.circuits > worst.circuits)
    )
      worst = here
  }
  return worst
}
