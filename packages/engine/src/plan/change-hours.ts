import type { Circuit } from '../job/index.ts'
import { power } from '../kernel/index.ts'
import { type LabourItem, labourEach, racewayItem, shopEach, spreadOf, wireItem } from '../shop/index.ts'
import type { Standing } from './change-list-box.ts'
import { keptShock } from './change-list-search.ts'

export interface ChangeHours {
  readonly low: number
  readonly middle: number
  readonly high: number
  /** Work whose hours nobody can count before somebody looked. */
  readonly uncounted: readonly string[]
}

const BREAKER: Readonly<Record<Circuit['connection'], LabourItem>> = {
  ...{ LN: '1P breaker', LL: '2P breaker', LLN: '2P breaker', LLL: '3P breaker to 100 A', LLLN: '3P breaker to 100 A' },
}
const WIRES: Readonly<Record<Circuit['connection'], number>> = { LN: 3, LL: 3, LLN: 4, LLL: 4, LLLN: 5 }

/** Hours of changes by the units of the shop's own tables, spread as they are there. The shop's factor rules when it has one. */
export function changeHours(of: Standing, keys: ReadonlySet<string>, factor: number | undefined): ChangeHours {
  const spread = spreadOf(factor, true)
  const uncounted: string[] = []
  let units = 0
  for (const key of keys) {
    const hours = unitsOf(of, key, keys)
    if (hours === null) uncounted.push(key.replace(/^defect\/(\d+)$/, (_, i) => `open defect ${Number(i) + 1}`))
    else units += hours
  }
  return { low: units * spread.low, middle: units * spread.middle, high: units * spread.high, uncounted }
}

function unitsOf(of: Standing, key: string, keys: ReadonlySet<string>): number | null {
  const at = key.lastIndexOf('/')
  const [id, part] = [key.slice(0, at), key.slice(at + 1)]
  const circuits = of.whole.circuits
  if (key === 'panel') return labourEach('42-circuit panelboard, set and feeders')
  // A new panel comes with its main.
  if (key === 'main') return keys.has('panel') ? 0 : labourEach('100 A fused disconnect')
  if (key === 'full test') return circuits.length * shopEach('dead test').hours
  if (key === 'outlet devices') return keptShock(of, keys).length * labourEach('GFCI receptacle')
  if (key === 'cord exits' || id === 'defect') return null
  if (id === 'old cord') return 0
  if (id === 'spare') return (of.spares.get(Number(part)) ?? 0) * labourEach('1P breaker')
  if (part === 'cord') return shopEach('cord made up').hours
  const c = circuits.find((one) => one.id === id)
  if (c === undefined) return null
  if (part === 'breaker') return keys.has(`${id}/device`) ? 0 : labourEach(BREAKER[c.connection])
  if (part === 'device') return labourEach(BREAKER[c.connection])
  if (part === 'outlet') return labourEach('duplex receptacle')
  if (part === 'shock') return labourEach('GFCI receptacle')
  if (part === 'wire') return wireUnits(c)
  if (part === 'add')
    return (
      labourEach(BREAKER[c.connection]) +
      wireUnits(c) +
      racewayUnits(c) +
      labourEach('device box') +
      labourEach('duplex receptacle')
    )
  return null
}

const wireUnits = (c: Circuit): number => WIRES[c.connection] * c.run.lengthM * labourEach(wireItem(areaOf(c.run.line.size)))

const racewayUnits = (c: Circuit): number =>
  c.run.raceway === null ? 0 : c.run.lengthM * labourEach(racewayItem(c.run.raceway.kind, c.run.raceway.trade))

/** Area of a wire by its trade name. @source the gauge doubles in area every three steps, 4/0 is 107.2 mm². Provenance: memory */
function areaOf(size: string): number {
  const mm2 = /^([\d.]+) mm2$/.exec(size)
  if (mm2 !== null) return Number(mm2[1])
  const kcmil = /^([\d.]+) kcmil$/.exec(size)
  if (kcmil !== null) return Number(kcmil[1]) * 0.5067
  const awg = /^(\d+)(\/0)? AWG$/.exec(size)
  const gauge = awg === null ? 12 : awg[2] === undefined ? Number(awg[1]) : 1 - Number(awg[1])
  return 53.49 * power(92, -gauge / 19.5)
}
