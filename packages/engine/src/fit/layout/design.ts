import type { BoxBody } from '../../box/index.ts'
import type { BoxBuild, BoxDesign, FitDesign, Job, SkinDesign } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import { type Prices, shelfItems, wholeBuild } from '../../parts/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { metalOf, strutIn } from './metal.ts'
import { tariffFor } from './money.ts'
import { pinnedSpots } from './pins.ts'
import { type Clash, type Spot, sidesOf, type Task, wallsOf } from './plan-of.ts'
import { HIGHWAY_MM, TOLERANCE_MM } from './rules.ts'
import { bestLayout } from './search.ts'
import { overlapMm, solidOf } from './solid.ts'
import { gridFor, placedItems } from './strut.ts'

export interface FitRequest {
  readonly job: Pick<Job, 'offers' | 'pins'>
  /** Electrical designs of this box, one for each phase: they share one build. */
  readonly designs: readonly BoxDesign[]
  readonly body: BoxBody
  /** Null: no openings yet. */
  readonly skin: SkinDesign | null
  readonly rules: RuleSet
  readonly prices: Prices
  /** How this box was built before, for nearly the same circuits. */
  readonly earlier?: Pick<BoxBuild, 'fit' | 'skin'>
  /** No wireway: one was tried before, with the wires that have to lie in it, and did not lead all. */
  readonly ownOnly?: boolean
}

/** What hangs where in one box, before channel is drawn behind it. */
export interface Arranged {
  readonly task: Task
  readonly metal: Parameters<typeof strutIn>[0]
  readonly spots: readonly Spot[]
  readonly clashes: readonly Clash[]
  readonly search: FitDesign['search']
}

/**
 * What hangs where in one box: placed by the program, pins kept, what cannot be placed named with the two things that clash and by how
 * much. `lanes`: what leaves room for raceways that come down from a wireway. Null: nothing is asked of it.
 */
export function arranged(request: FitRequest, lanes = false): Arranged | null {
  const { body, skin, rules, prices, job } = request
  const whole = wholeBuild(request.designs)
  if (whole === null) return null
  const metal = metalOf(job.pins, body.box) ?? 'steel'
  const items = shelfItems(request.designs, job, rules)
  const voltsToEarth = voltsToEarthV(rules, whole)
  const space = (condition: 2 | 3) =>
    rules.build.workingSpace({ voltsToEarthV: voltsToEarth, condition, equipmentWidthM: 0, equipmentTopM: 0 }).value
  const task: Task = {
    body,
    skin,
    sides: sidesOf(body, skin),
    items,
    pinned: pinnedSpots(body, items, job.pins),
    handleAtMostMm: 1000 * rules.build.handleAtMostM.value,
    depthMm: { 2: space(2).depthM * 1000, 3: space(3).depthM * 1000 },
    leastWidthMm: space(2).widthM * 1000,
    leastHeightMm: space(2).heightM * 1000,
    walls: wallsOf(body, skin, lanes),
  }
  const { placed, search } = bestLayout(task, tariffFor(whole, items, prices, metal))
  return { task, metal, spots: placed.spots, clashes: placed.clashes, search }
}

/** Everything hung on its channel, `more` among it. Raceways and bonding jumpers are laid afterwards, on this. */
export function hungUp({ task, metal, spots, clashes, search }: Arranged, more: readonly Spot[] = []): FitDesign {
  const all = [...spots, ...more]
  const grid = gridFor(task, all)
  const solid = (spot: Spot) => solidOf(task.body, task.walls.get(`${spot.side} ${spot.face}`), spot)
  return {
    items: placedItems(all, grid, solid),
    strut: strutIn(metal, grid.strut),
    raceways: [],
    bonds: [],
    search,
    clashes: [...clashes, ...pinClashes(task, spots, solid)],
  }
}

/** The layout of a box without raceways. */
export function layoutFor(request: FitRequest): FitDesign {
  const made = arranged(request)
  return made === null ? { items: [], strut: [], raceways: [], bonds: [], search: null, clashes: [] } : hungUp(made)
}

type Solid = (spot: Spot) => ReturnType<typeof solidOf>

/** Pins that stand in each other, in an opening or dent, or out of the box. */
function pinClashes(task: Task, spots: readonly Spot[], solid: Solid): readonly Clash[] {
  const clashes: Clash[] = []
  for (const pin of task.pinned) {
    const here = solid(pin)
    for (const other of spots) {
      if (other === pin || (other.pinned && other.item.id < pin.item.id)) continue
      const by = overlapMm(here, solid(other), TOLERANCE_MM)
      if (by > 0) clashes.push({ what: pin.item.id, against: other.item.id, byMm: Math.ceil(by) })
    }
    if (pin.side === 'roof' || pin.side === 'floor') continue
    const wall = task.walls.get(`${pin.side} ${pin.face}`)
    if (wall === undefined) {
      clashes.push({ what: pin.item.id, against: pin.side, byMm: pin.item.part.widthMm })
      continue
    }
    const [from, to] = [pin.uMm - pin.item.part.widthMm / 2, pin.uMm + pin.item.part.widthMm / 2]
    const [low, high] = [pin.zMm - pin.item.part.heightMm / 2, pin.zMm + pin.item.part.heightMm / 2]
    for (const b of wall.blocked) {
      const by = Math.min(to - b.fromMm, b.toMm - from, high - b.lowMm, b.highMm - low)
      if (by > 0) clashes.push({ what: pin.item.id, against: b.id, byMm: Math.ceil(by) })
    }
    const over = Math.max(wall.fromMm - from, to - wall.toMm)
    if (over > 1e-6) clashes.push({ what: pin.item.id, against: `end of the ${pin.side} wall`, byMm: Math.ceil(over) })
    const band = pin.face === 'inside' ? Math.max(wall.floorMm + HIGHWAY_MM - low, high - (wall.ceilingMm - HIGHWAY_MM)) : 0
    if (band > 1e-6) clashes.push({ what: pin.item.id, against: 'clear bands along floor and ceiling', byMm: Math.ceil(band) })
  }
  return clashes
}

/** @throws Fault `fit/system-unknown` */
function voltsToEarthV(rules: RuleSet, box: BoxDesign): number {
  const system = rules.systems.find((s) => s.id === box.system)
  if (system === undefined) throw new Fault('fit/system-unknown', box.system)
  return system.lineNeutralV
}
