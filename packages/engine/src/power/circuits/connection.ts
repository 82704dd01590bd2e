import type { Circuit, Leg } from '../../job/index.ts'
import type { Outlet, RuleSet, System } from '../../rules/index.ts'

export type Connection = Circuit['connection']

/** What a plug meets at the panel. `offFrac`: its volts against the nearest volts of the system; null when nothing of it fits. */
export interface Fitted {
  readonly connection: Connection
  readonly feedV: number
  readonly offFrac: number
}

/** A machine's own volts may differ from the nominal by this much: 115 V on 120 V, 230 V on 240 V, 220 V on 230 V. */
export const SAME_VOLTS_FRAC = 0.08

/**
 * Line–neutral, line–line or three-phase, by the volts and phases of a plug, the system, and the outlet's own wires.
 * Null for a three-phase machine on a panel without three phases.
 */
export function connectionOf(
  plug: { readonly voltageV: number; readonly phases: 1 | 3 },
  system: System,
  outlet: Outlet | null,
): Fitted | null {
  if (plug.phases === 3) {
    if (system.legs.length < 3) return null
    const feedV = system.lineLineV
    return {
      connection: outlet?.connection === 'LLLN' && system.neutral ? 'LLLN' : 'LLL',
      feedV,
      offFrac: off(plug.voltageV, feedV),
    }
  }
  const byNeutral = off(plug.voltageV, system.lineNeutralV)
  const byLines = system.legs.length > 1 ? off(plug.voltageV, system.lineLineV) : Infinity
  if (byNeutral <= byLines) return { connection: 'LN', feedV: system.lineNeutralV, offFrac: byNeutral }
  const four = outlet !== null && (outlet.connection === 'LLN' || outlet.connection === 'LLLN') && system.neutral
  return { connection: four ? 'LLN' : 'LL', feedV: system.lineLineV, offFrac: byLines }
}

const off = (volts: number, feedV: number): number => Math.abs(volts - feedV) / feedV

/** Sets of legs a connection may take, in the order of the panel. The high leg of a delta feeds nothing to neutral. */
export function legOptions(connection: Connection, system: System): readonly (readonly Leg[])[] {
  const legs = system.legs
  if (connection === 'LLL' || connection === 'LLLN') return legs.length === 3 ? [legs] : []
  if (connection === 'LN') return legs.filter((leg) => !(system.kind === 'delta' && leg === HIGH_LEG)).map((leg) => [leg])
  if (legs.length < 2) return []
  if (legs.length === 2) return [legs]
  // With a neutral on a delta only the two legs beside the centre tap serve.
  if (connection === 'LLN' && system.kind === 'delta') return [legs.filter((leg) => leg !== HIGH_LEG)]
  return [
    [legs[0]!, legs[1]!],
    [legs[1]!, legs[2]!],
    [legs[2]!, legs[0]!],
  ]
}

/** @source NEC 110.15 marks the high leg; 408.3(F)(1) and practice put it on phase B. Provenance: memory */
const HIGH_LEG: Leg = 'B'

/** Poles of the device: one for each line; the neutral is not switched here. */
export const POLES: Record<Connection, 1 | 2 | 3> = { LN: 1, LL: 2, LLN: 2, LLL: 3, LLLN: 3 }
export const hasNeutral = (connection: Connection): boolean => connection.endsWith('N')

export const isHardWired = (outlet: string): boolean => /^hard[ -]?wired/i.test(outlet)

/**
 * The outlet of a name. A name the set does not know stays null: its rating is then not known, and a finding says so.
 */
export function outletOf(rules: RuleSet, name: string): Outlet | null {
  if (isHardWired(name)) return null
  return rules.outletNamed(name) ?? rules.outlets.find((o) => o.id.toLowerCase() === name.toLowerCase()) ?? null
}

/** Receptacles whose smaller plug goes into the larger one as it is. */
const TAKES: Readonly<Record<string, string>> = { '5-15R': '5-20R', '6-15R': '6-20R' }
/** @source NEMA WD 6, T-slot of the 20 A form. Provenance: memory */
export const takesPlugOf = (outlet: string, plug: string): boolean => outlet === plug || TAKES[plug] === outlet

/** Smallest outlet of the same wires and volts that a current asks for; one that takes the plug as it is first. Null when none. */
export function outletAtLeast(rules: RuleSet, wanted: Outlet, ratingA: number): Outlet | null {
  const fits = rules.outlets.filter(
    (o) =>
      o.phases === wanted.phases && o.connection === wanted.connection && o.voltageV === wanted.voltageV && o.ratingA >= ratingA,
  )
  fits.sort(
    (a, b) =>
      a.ratingA - b.ratingA ||
      Number(takesPlugOf(b.id, wanted.id)) - Number(takesPlugOf(a.id, wanted.id)) ||
      (a.id < b.id ? -1 : 1),
  )
  return fits[0] ?? null
}
