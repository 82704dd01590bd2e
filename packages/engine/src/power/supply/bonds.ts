import type { SourceMode } from '../../job/index.ts'
import type { Verdict } from '../../kernel/index.ts'
import type { BondPoint, BondPosition } from './result.ts'

/** What decides how many neutral–earth bonds hang on the box's neutral. */
export interface BondFacts {
  /** Earthing of the box as fed by the network or neighbour. */
  readonly earthing: BondPosition['earthing']
  readonly panelBonded: boolean
  readonly transfer: 'none' | 'neutral switched' | 'neutral solid'
  /** A set of our own is in the design, beside or instead of the network. */
  readonly hasSet: boolean
  /** The network (or a neighbour) is in the design. */
  readonly hasNetwork: boolean
  readonly setBond: 'at the set' | 'at the first disconnect' | 'none'
  /** The set left the factory with its neutral joined to its frame; null: nobody said. */
  readonly factoryBond: boolean | null
  /** Our own transformer stands between the network and the panel: its secondary is a source of its own. */
  readonly ownTransformer: boolean
}

const point = (where: BondPoint['where'], ours: boolean): BondPoint => ({ where, ours })

/** Bonds of the set that are there whatever the switch does. Its frame bond and one made at it are the same link. */
function setBonds(facts: BondFacts, factory: boolean): BondPoint[] {
  const bonds: BondPoint[] = []
  if (factory || facts.setBond === 'at the set') bonds.push(point('set', true))
  // The main of a bonded panel is the first disconnect: that link is counted there.
  if (facts.setBond === 'at the first disconnect' && !facts.panelBonded) bonds.push(point('first disconnect', true))
  return bonds
}

/** Is the set's neutral joined to the box's while another source feeds it? Only a solid neutral does that. */
const setJoined = (facts: BondFacts): boolean => facts.hasSet && facts.hasNetwork && facts.transfer === 'neutral solid'

/** The one bond of a service under the rules that bond it: at the panel where that is the service, else at the service itself. */
function serviceBond(facts: BondFacts): BondPoint[] {
  if (facts.panelBonded) return [point('panel', true)]
  return facts.ownTransformer ? [] : [point('service', true)]
}

/** Bonds joined to the box's neutral in one position, and how many of ours there must be. */
export function bondsIn(
  position: SourceMode,
  facts: BondFacts,
  factory: boolean,
): { readonly bonds: readonly BondPoint[]; readonly wanted: number } {
  const panel = facts.panelBonded ? [point('panel', true)] : []
  const joinedSet = position !== 'own set' && setJoined(facts) ? setBonds(facts, factory) : []
  if (position === 'own set') {
    // A solid neutral brings the bond of the other source along, whoever made it.
    const theirs = facts.earthing === 'service bond' ? serviceBond(facts) : [...panel, point('service', false)]
    const joinedNetwork = setJoined(facts) ? theirs : panel
    return { bonds: [...setBonds(facts, factory), ...joinedNetwork], wanted: 1 }
  }
  if (facts.ownTransformer) return { bonds: [...panel, ...joinedSet], wanted: 1 }
  if (position === 'neighbour') return { bonds: [point('neighbour', false), ...panel, ...joinedSet], wanted: 0 }
  if (facts.earthing === 'service bond') return { bonds: [...serviceBond(facts), ...joinedSet], wanted: 1 }
  // The network bonds on its own side, which is a fact and not our choice; TT and TN from it get none of ours.
  return { bonds: [point('service', false), ...panel, ...joinedSet], wanted: 0 }
}

/** Of a source of our own every bond on its neutral counts; of the network only those we add. */
const counted = (position: SourceMode, bonds: readonly BondPoint[]): number =>
  (position === 'own set' ? bonds : bonds.filter((b) => b.ours)).length

/**
 * The invariant of the neutral–earth bond in one position of the switch, on our side of the supply point: one for our own set or our own
 * transformer; exactly the service's when the network feeds us under rules that bond the service; none added for TT, TN from the network,
 * and a neighbour. A set whose factory bond nobody told is judged with and without: where that changes the word, `unknown`.
 * @source NEC 250.30, 250.32; IEC 60364-4-41. Provenance: memory
 */
export function bondPosition(position: SourceMode, facts: BondFacts): BondPosition {
  const ends = facts.factoryBond === null && facts.hasSet ? [false, true] : [facts.factoryBond === true]
  const found = ends.map((factory) => bondsIn(position, facts, factory))
  const words = found.map(({ bonds, wanted }): Verdict => (counted(position, bonds) === wanted ? 'holds' : 'fails'))
  const shown = found[0] as (typeof found)[number]
  const agree = words.every((word) => word === words[0])
  const verdict: Verdict = agree ? (words[0] as Verdict) : 'unknown'
  const earthing = position === 'own set' ? 'TN-S' : facts.earthing
  return {
    position,
    earthing,
    bonds: shown.bonds,
    wanted: shown.wanted,
    verdict,
    said: saidOf(position, shown, verdict, found.length > 1 ? (found[1] as (typeof found)[number]) : null),
  }
}

const NAMES: Record<BondPoint['where'], string> = {
  service: 'at the service',
  panel: 'in the panel',
  set: 'at the set',
  'first disconnect': 'at the first disconnect',
  'own transformer': 'at the own transformer',
  neighbour: 'at the neighbour',
}

function saidOf(
  position: SourceMode,
  shown: ReturnType<typeof bondsIn>,
  verdict: Verdict,
  other: ReturnType<typeof bondsIn> | null,
): string {
  const count = counted(position, shown.bonds)
  const where =
    shown.bonds.length === 0 ? 'nowhere' : shown.bonds.map((b) => `${NAMES[b.where]}${b.ours ? '' : ' (not ours)'}`).join(' and ')
  const wanted = shown.wanted === 1 ? 'exactly one is wanted' : 'none of ours is wanted'
  const end =
    verdict === 'unknown' && other
      ? `; with a factory bond in the set it would be ${counted(position, other.bonds)}: read the set's plate`
      : ''
  return `Fed by the ${position}: the neutral is joined to earth ${where}, ${count} that count; ${wanted}${end}.`
}
