import type { MotorPlate, Plug } from '../../job/index.ts'
import { abs, add, type Complex, cx, div, Fault, put, type Step, source, step, type Worked } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'

const W_PER_HP = 745.6999

/** Full-load current of a motor from its shaft power. */
export const fullLoadA = (task: {
  readonly shaftW: number
  readonly voltageV: number
  readonly phases: 1 | 3
  readonly powerFactorFrac: number
  readonly efficiencyFrac: number
}): number => task.shaftW / ((task.phases === 3 ? Math.sqrt(3) : 1) * task.voltageV * task.powerFactorFrac * task.efficiencyFrac)

/** kVA at standstill from the code letter's kVA per hp, and the current it draws. */
export function startByCode(task: {
  readonly hp: number
  readonly kVAPerHp: number
  readonly voltageV: number
  readonly phases: 1 | 3
}): { readonly startKVA: number; readonly startA: number } {
  const startKVA = task.hp * task.kVAPerHp
  return { startKVA, startA: (startKVA * 1000) / ((task.phases === 3 ? Math.sqrt(3) : 1) * task.voltageV) }
}

export const wattsOfHp = (hp: number): number => hp * W_PER_HP

/** Upper kVA per hp of a code letter. Letter V has no upper bound: its lower one, said. @throws Fault `power/code-letter` */
export function codeKVAPerHp(rules: RuleSet, letter: string): number {
  const table = rules.tables['motor-code']
  const row = table?.rows.find((r) => String(r[0]) === letter.toUpperCase())
  if (row === undefined) throw new Fault('power/code-letter', letter)
  return Number(row[2] ?? row[1])
}

/** Share of the direct starting current that this way of starting draws from the supply. */
const START_FRAC: Record<MotorPlate['start'], number> = { direct: 1, soft: 0.5, 'star-delta': 1 / 3, drive: 0 }
/** Starting over running current when the plate says nothing. */
const RATIO_UNKNOWN = 6
/** Locked-rotor power factor: 0.4 to 0.2, small to large. */
export const START_PF = { high: 0.4, low: 0.2 } as const

/**
 * Current a motor draws from the supply as it starts, at its rated volts: locked-rotor current of the plate, else code letter,
 * else starting ratio, else 6 times running (said).
 * @source NEC Table 430.7(B) for the letters. Provenance: read; shares of soft and star–delta start: common practice
 */
export function startA(plug: Plug, rules: RuleSet): Worked<number> {
  const motor = plug.motor
  if (motor === undefined) return { value: 0, steps: [] }
  const share = START_FRAC[motor.start]
  const practice = source('way of starting', 'common practice')
  const cut = (direct: number, steps: Step[]): Worked<number> => ({
    value: direct * share,
    steps:
      share === 1
        ? steps
        : [
            ...steps,
            step(
              'I_st',
              `${Number(share.toFixed(3))}·I_LR (${motor.start})`,
              [put('I_LR', direct, 'A')],
              direct * share,
              'A',
              practice,
            ),
          ],
  })
  if (motor.lockedRotorA !== undefined) {
    return cut(motor.lockedRotorA, [step('I_LR', 'plate', [], motor.lockedRotorA, 'A', source("motor's plate", 'told'))])
  }
  const hp = motor.hp ?? (motor.shaftW === undefined ? undefined : motor.shaftW / W_PER_HP)
  if (motor.codeLetter !== undefined && hp !== undefined) {
    const kVAPerHp = codeKVAPerHp(rules, motor.codeLetter)
    const found = startByCode({ hp, kVAPerHp, voltageV: plug.voltageV, phases: plug.phases })
    return cut(found.startA, [
      step(
        'I_LR',
        plug.phases === 3 ? 'k·hp·1000/(√3·V)' : 'k·hp·1000/V',
        [put('k', kVAPerHp, 'kVA/hp'), put('hp', hp, 'hp'), put('V', plug.voltageV, 'V')],
        found.startA,
        'A',
        source(`NEC Table 430.7(B), letter ${motor.codeLetter}, upper bound`, 'read'),
      ),
    ])
  }
  const running = motor.fullLoadA ?? plug.currentA
  const ratio = motor.startRatio ?? RATIO_UNKNOWN
  const rests =
    motor.startRatio === undefined ? source('6 times running current, nobody said', 'assumed') : source("motor's plate", 'told')
  return cut(ratio * running, [
    step('I_LR', 'ratio·I', [put('ratio', ratio), put('I', running, 'A')], ratio * running, 'A', rests),
  ])
}

/** Dip behind one reactance, per unit: magnitudes only, s/(s + 1/x). */
export const simpleDipFrac = (task: { readonly startPu: number; readonly reactancePu: number }): number =>
  task.startPu / (task.startPu + 1 / task.reactancePu)

/** Dip behind one reactance with the motor as an impedance: 1 − |Zm/(Zm + jx)|. */
export function phasorDipFrac(task: {
  readonly startPu: number
  readonly startPowerFactorFrac: number
  readonly reactancePu: number
}): number {
  const z: Complex = cx(task.startPowerFactorFrac / task.startPu, Math.sqrt(1 - task.startPowerFactorFrac ** 2) / task.startPu)
  return 1 - abs(div(z, add(z, cx(0, task.reactancePu))))
}
