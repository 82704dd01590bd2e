import type { Span } from '../job/index.ts'
import { Fault, type Provenance } from '../kernel/index.ts'
import { tables } from './tables.generated.ts'

/** A generic body on the parts shelf. */
export interface ShelfPart {
  /** `panelboard 400`, `transformer 3 ph 75 kVA`: row of the shelf. */
  readonly id: string
  /** Along the wall, up, and out from the wall. */
  readonly widthMm: number
  readonly heightMm: number
  readonly depthMm: number
  readonly massKg: Span
  /** Worked on live from the front: asks for the rule set's clear space. */
  readonly workedOnLive: boolean
  /** Width of the door that swings out in front; 0: none. */
  readonly doorMm: number
  readonly provenance: Provenance
  readonly source: string
}

/** Word of a part and the largest it takes: `['panelboard', 400]`. */
export type PartName = (typeof tables)['item-sizes']['rows'][number][0]

/**
 * Smallest part of a name that takes `need`, in the unit of its row (A of a device, kVA, count, W).
 * @throws Fault `parts/no-such-size` beyond the largest row
 * @source table `item-sizes`; provenance by row
 */
export function partFor(name: PartName, need: number): ShelfPart {
  const { rows, source } = tables['item-sizes']
  const row = rows.filter((r) => r[0] === name).find((r) => r[1] >= need - 1e-9)
  if (row === undefined || !(need >= 0)) throw new Fault('parts/no-such-size', `${name} for ${need}`)
  const [part, upto, widthMm, heightMm, depthMm, low, high, live, doorMm, rests] = row
  return {
    id: `${part} ${upto}`,
    widthMm,
    heightMm,
    depthMm,
    massKg: massOf(low, high, `table item-sizes, ${part} ${upto}`),
    workedOnLive: live === 'yes',
    doorMm,
    provenance: /memory|reference/.test(rests) ? 'memory' : 'common practice',
    source,
  }
}

/** A part by the id it was placed with; null: not on the shelf. */
export function partById(id: string): ShelfPart | null {
  const own = /^transformer ([13]) ph ([\d.]+) kVA$/.exec(id)
  if (own !== null) return transformerPart({ phases: own[1] === '3' ? 3 : 1, kVA: Number(own[2]) })
  const row = tables['item-sizes'].rows.find((r) => `${r[0]} ${r[1]}` === id)
  return row === undefined ? null : partFor(row[0], row[1])
}

/**
 * Body of an own transformer, the next size up on the shelf.
 * @throws Fault `parts/no-such-size` beyond the largest row
 * @source table `transformer-bodies`. Provenance: memory
 */
export function transformerPart(of: { readonly kVA: number; readonly phases: 1 | 3 }): ShelfPart {
  const { rows, source } = tables['transformer-bodies']
  const row = rows.find((r) => r[0] === of.phases && r[1] >= of.kVA - 1e-9)
  if (row === undefined) throw new Fault('parts/no-such-size', `transformer ${of.kVA} kVA, ${of.phases} phase`)
  const [phases, kVA, widthMm, heightMm, depthMm, low, high] = row
  return {
    id: `transformer ${phases} ph ${kVA} kVA`,
    widthMm,
    heightMm,
    depthMm,
    massKg: massOf(low, high, `table transformer-bodies, ${kVA} kVA`),
    workedOnLive: false,
    doorMm: 0,
    provenance: 'memory',
    source,
  }
}

/** A stock size of wireway. */
export interface WirewaySize {
  readonly trade: string
  readonly heightMm: number
  readonly depthMm: number
  readonly massKgPerM: Span
}

/** Stock sizes of a rule set, the smallest first. @source table `wireway-sizes`. Provenance: memory */
export function wirewaySizes(set: string): readonly WirewaySize[] {
  return tables['wireway-sizes'].rows.flatMap(([of, trade, heightMm, depthMm, low, high]) =>
    of === set ? [{ trade, heightMm, depthMm, massKgPerM: massOf(low, high, `table wireway-sizes, ${trade}`) }] : [],
  )
}

/** So many metres of a wireway as a part that hangs. */
export function wirewayPart(size: WirewaySize, lengthMm: number): ShelfPart {
  const { low, high, basis } = size.massKgPerM
  return {
    id: `wireway ${size.trade}`,
    widthMm: lengthMm,
    heightMm: size.heightMm,
    depthMm: size.depthMm,
    massKg: massOf((low * lengthMm) / 1000, (high * lengthMm) / 1000, basis),
    workedOnLive: false,
    doorMm: 0,
    provenance: 'memory',
    source: tables['wireway-sizes'].source,
  }
}

const massOf = (low: number, high: number, basis: string): Span => ({ low, high, basis, told: false })
