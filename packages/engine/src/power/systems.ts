import { Fault } from '../kernel/index.ts'
import type { RuleSet, System } from '../rules/index.ts'

/** Voltage between the lines of a system; of a two-wire one its only voltage. */
export const lineVolts = (system: System): number => (system.kind === 'single' ? system.lineNeutralV : system.lineLineV)

export const isThree = (system: System): boolean => system.legs.length === 3

/** The rule set's system of this id. */
export function systemOf(rules: RuleSet, id: string): System {
  const found = rules.systems.find((s) => s.id === id)
  if (found === undefined) throw new Fault('power/system-unknown', id)
  return found
}
