import type { BondPoint, BoxDesign, Circuit, FitDesign, PlacedItem, RacewayRoute, Run } from '../job/index.ts'
import { tapMm } from '../job/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { amount, byText } from './figures.ts'
import type { WirePull, WireTotal } from './result.ts'

export interface WiresRequest {
  readonly fit: Pick<FitDesign, 'raceways' | 'items' | 'bonds'>
  /** The electrical design of the whole build. */
  readonly whole: BoxDesign
  readonly rules: Pick<RuleSet, 'colours'>
}

interface Stretch {
  readonly raceways: readonly RacewayRoute[]
  readonly from: string
  readonly to: string
}

/**
 * Every wire of the box, from terminal to terminal: one for each conductor of each circuit and each stretch between two things in which
 * the circuit ends or branches. Through a box of other circuits it passes uncut.
 *
 *   cut = 1.05 · Σ route + 0.3 m at each end and in each box it passes, twice; in a wireway it lies through without a loop
 *
 * @source wire cut = route × 1.05 + 0.3 m each termination. Provenance: common practice
 */
export function wirePulls({ fit, whole, rules }: WiresRequest): readonly WirePull[] {
  const items = new Map(fit.items.map((i) => [i.id, i]))
  const circuits = [...new Set(fit.raceways.flatMap((r) => r.circuits))].toSorted(byText)
  const pulls = circuits.flatMap((id) => {
    const circuit = whole.circuits.find((c) => c.id === id)
    const own = fit.raceways.filter((r) => r.circuits.includes(id)).toSorted((a, b) => byText(a.id, b.id))
    return stretchesOf(own, id, items).flatMap((s) => {
      const wires = circuit === undefined ? feedWires(whole, items.get(s.to), rules) : circuitWires(circuit, rules)
      return wires.map((w): WirePull => {
        const inside = insideM(fit, id, s.raceways)
        const routeM = s.raceways.reduce((sum, r) => sum + axisM(r), 0) + (inside ?? 0)
        const loops = s.raceways.reduce((sum, r) => sum + loopsOf(r, items), 0)
        const short = `${id} ${w.conductor}`
        return {
          ...w,
          id: `${id}/${w.conductor}/${s.from}/${s.to}`,
          circuit: id,
          from: s.from,
          to: s.to,
          raceways: s.raceways.map((r) => r.id),
          routeM,
          cutM: (1 + amount('wire slack')) * routeM + amount('wire loop') * loops,
          wirewayM: inside,
          markFrom: `${short} → ${s.to}`,
          markTo: `${short} ← ${s.from}`,
        }
      })
    })
  })
  return [...pulls, ...bondPulls(fit, whole, rules)]
}

const axisM = (r: RacewayRoute): number =>
  r.pointsMm.slice(1).reduce((sum, p, i) => sum + Math.hypot(...p.map((v, k) => v - r.pointsMm[i]![k as 0 | 1 | 2])), 0) / 1000

/** Metres of a stretch that lie in the wireway; null: none of it does. */
function insideM(fit: WiresRequest['fit'], circuit: string, raceways: readonly RacewayRoute[]): number | null {
  const taps = raceways.flatMap((r) => {
    const tap = r.circuits.includes(circuit) ? tapMm(fit.items, r) : null
    return tap === null ? [] : [tap.atMm]
  })
  return taps.length < 2 ? null : (Math.max(...taps) - Math.min(...taps)) / 1000
}

/** Ends of a raceway at which a loop of wire is left. */
const loopsOf = (r: RacewayRoute, items: ReadonlyMap<string, PlacedItem>): number =>
  [r.from, r.to].filter((id) => items.get(id)?.kind !== 'wireway').length

const WIREWAY = 'wireway'

/** Things in which any circuit that comes by is cut. */
const CUTS_ALL: ReadonlySet<PlacedItem['kind']> = new Set(['panel', 'meter', 'service disconnect', 'transfer', 'transformer'])

function stretchesOf(
  raceways: readonly RacewayRoute[],
  circuit: string,
  items: ReadonlyMap<string, PlacedItem>,
): readonly Stretch[] {
  // All pieces of the wireway are one place, in which nothing is cut.
  const place = (id: string): string => (items.get(id)?.kind === 'wireway' ? WIREWAY : id)
  const ends = (id: string): boolean => {
    if (place(id) === WIREWAY) return false
    const item = items.get(id)
    const ways = raceways.filter((r) => r.from === id || r.to === id).length
    return item === undefined || ways !== 2 || CUTS_ALL.has(item.kind) || item.circuits.includes(circuit)
  }
  const left = new Set(raceways)
  const out: Stretch[] = []
  const contactors = [...items.values()].find((i) => i.kind === 'contactors' && i.circuits.includes(circuit))?.id
  const follow = (first: RacewayRoute, from: string): Stretch => {
    const run = [first]
    left.delete(first)
    let at = first.from === from ? first.to : first.from
    while (!ends(at)) {
      const here = place(at)
      const open = [...left].filter((r) => place(r.from) === here || (here !== WIREWAY && place(r.to) === here))
      // Out of the wireway first to its contactors, unless it comes from them.
      const next = open.find((r) => here === WIREWAY && from !== contactors && r.to === contactors) ?? open[0]
      if (next === undefined) break
      run.push(next)
      left.delete(next)
      at = place(next.from) === here ? next.to : next.from
    }
    return { raceways: run, from, to: at }
  }
  for (const r of raceways) {
    if (!left.has(r)) continue
    if (ends(r.from)) out.push(follow(r, r.from))
  }
  for (const r of raceways) if (left.has(r)) out.push(follow(r, r.from))
  return out
}

type Kind = Pick<WirePull, 'conductor' | 'colour' | 'size' | 'metal' | 'insulation'>

function circuitWires(c: Circuit, rules: Pick<RuleSet, 'colours'>): readonly Kind[] {
  return runWires(c.run, c.legs, rules)
}

/** The feed, or what leads to the own transformer, by the thing it leads to. */
function feedWires(whole: BoxDesign, to: PlacedItem | undefined, rules: Pick<RuleSet, 'colours'>): readonly Kind[] {
  const { transformer } = whole
  const ahead = transformer !== null && to !== undefined && to.kind !== 'panel'
  const run = ahead ? transformer.primaryRun : (whole.fedFrom?.run ?? whole.panel.feed)
  const poles = ahead ? transformer.primary.poles : whole.panel.main.poles
  return runWires(run, (['A', 'B', 'C'] as const).slice(0, Math.min(3, poles)), rules)
}

function runWires(run: Run, legs: readonly ('A' | 'B' | 'C')[], rules: Pick<RuleSet, 'colours'>): readonly Kind[] {
  const one: Kind[] = []
  for (const leg of legs) one.push({ conductor: leg, colour: rules.colours[leg], ...run.line })
  if (run.neutral !== null) one.push({ conductor: 'N', colour: rules.colours.N, ...run.neutral })
  if (run.protective !== null) one.push({ conductor: 'PE', colour: rules.colours.PE, ...run.protective })
  return Array.from({ length: run.sets }, (_, k) =>
    one.map((w) => (k === 0 ? w : { ...w, conductor: `${w.conductor}/${k + 1}` })),
  ).flat()
}

/** Jumpers of wire. Braids across hinges and bushings at pipe ends are bought as such. */
function bondPulls(fit: WiresRequest['fit'], whole: BoxDesign, rules: Pick<RuleSet, 'colours'>): readonly WirePull[] {
  const bar = fit.items.find((i) => i.kind === 'earth bar')
  if (bar === undefined) return []
  return fit.bonds
    .filter((b) => bondMadeOf(b) === 'wire')
    .map((b): WirePull => {
      // Channel is joined to the welded steel beside it; all else runs square to the bar.
      const near = b.id.startsWith('strut ')
      const routeM = near ? 0 : b.atMm.reduce((sum, v, k) => sum + Math.abs(v - bar.atMm[k as 0 | 1 | 2]), 0) / 1000
      const to = near ? 'welded steel beside it' : bar.id
      return {
        id: `bond/${b.id}`,
        circuit: 'bond',
        conductor: 'PE',
        colour: rules.colours.PE,
        size: b.conductor,
        metal: 'cu',
        insulation: whole.panel.feed.line.insulation,
        from: b.id,
        to,
        raceways: [],
        wirewayM: null,
        routeM,
        cutM: (1 + amount('wire slack')) * routeM + 2 * amount('wire loop'),
        markFrom: `PE → ${to}`,
        markTo: `PE ← ${b.id}`,
      }
    })
    .toSorted((a, b) => byText(a.id, b.id))
}

export const bondMadeOf = (b: BondPoint): 'wire' | 'braid' | 'bushing' =>
  b.what.startsWith('flexible braid') ? 'braid' : b.id.startsWith('raceway ') ? 'bushing' : 'wire'

/** Metres by size, insulation and colour: what the reels must hold. */
export function wireTotals(pulls: readonly WirePull[]): readonly WireTotal[] {
  return [...Map.groupBy(pulls, (p) => [p.size, p.metal, p.insulation, p.colour].join('|'))]
    .toSorted(([a], [b]) => byText(a, b))
    .map(([, own]) => {
      const { size, metal, insulation, colour } = own[0]!
      return { size, metal, insulation, colour, count: own.length, lengthM: own.reduce((sum, p) => sum + p.cutM, 0) }
    })
}
