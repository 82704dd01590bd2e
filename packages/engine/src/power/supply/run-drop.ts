import type { Wire } from '../../job/index.ts'
import { put, type Step, source, step } from '../../kernel/index.ts'
import type { RuleSet, System } from '../../rules/index.ts'

export interface RunTask {
  readonly rules: RuleSet
  readonly system: System
  readonly wire: Wire
  readonly where: string
  readonly lengthM: number
  readonly currentA: number
  readonly powerFactorFrac: number
  readonly conductorC: number
}

/**
 * Share of nominal lost along a run, approximate, all legs loaded alike.
 *
 *   ΔU = k·I·l·(r·cos φ + x·sin φ),  k = 2 between two wires, √3 between lines
 *
 * A first figure for comparing offers: `reach` solves the network. @source IEC 60364-5-52 Annex G form. Provenance: memory
 */
export function runDropFrac(task: RunTask): { readonly dropFrac: number; readonly steps: readonly Step[] } {
  const { rules, system, wire, lengthM, currentA, powerFactorFrac: cos } = task
  const z = rules.impedanceOhmPerM({ size: wire.size, metal: wire.metal, where: task.where, temperatureC: task.conductorC })
  const three = system.legs.length === 3
  const k = three ? Math.sqrt(3) : 2
  const nominalV = system.lineLineV
  const sin = Math.sqrt(Math.max(0, 1 - cos * cos))
  const dropV = k * currentA * lengthM * (z.value.r * cos + z.value.x * sin)
  return {
    dropFrac: dropV / nominalV,
    steps: [
      ...z.steps,
      step(
        'ΔU',
        `${three ? '√3' : '2'}·I·l·(r·cos φ + x·sin φ)`,
        [
          put('I', currentA, 'A'),
          put('l', lengthM, 'm'),
          put('r', z.value.r, 'Ω/m'),
          put('x', z.value.x, 'Ω/m'),
          put('cos φ', cos),
        ],
        dropV,
        'V',
        source('IEC 60364-5-52 Annex G form', 'memory'),
      ),
      step('ΔU/U', 'ΔU/U', [put('U', nominalV, 'V')], dropV / nominalV, '', source('definition', 'computed')),
    ],
  }
}
