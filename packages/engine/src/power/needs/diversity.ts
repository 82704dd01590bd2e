import { Fault } from '../../kernel/index.ts'

export interface Group {
  readonly connectedVA: number
  /** Highest demand of the group over what is connected in it. */
  readonly demandFrac: number
}

/**
 * Demand of groups whose peaks do not coincide: Σ connected·demand, divided by the diversity factor (sum of peaks over peak of the sum, ≥ 1).
 * For reading others' figures only: nothing here is sized by a diversity that no hard cap holds.
 * @throws Fault `needs/diversity-range`
 */
export function diversifiedVA(
  groups: readonly Group[],
  diversityRatio: number,
): { readonly undiversifiedVA: number; readonly diversifiedVA: number } {
  const inRange = diversityRatio >= 1 && groups.every((g) => g.connectedVA >= 0 && g.demandFrac >= 0 && g.demandFrac <= 1)
  if (!inRange) throw new Fault('needs/diversity-range', { groups, diversityRatio })
  const undiversifiedVA = groups.reduce((sum, g) => sum + g.connectedVA * g.demandFrac, 0)
  return { undiversifiedVA, diversifiedVA: undiversifiedVA / diversityRatio }
}

export interface LegsTask {
  readonly serviceA: number
  /** Share of the device that a steady load may take. */
  readonly holdsFrac: number
  readonly legs: number
  readonly machineW: number
  readonly machineV: number
  readonly lineLineV: number
}

/**
 * How many equal line–neutral machines a service feeds: by power it seems more than by legs, because a machine does not split.
 *
 *   by power ⌊holds·In·U_LL/P⌋ (single phase, three wires),  by legs n·⌊holds·In/(P/V)⌋
 *
 * Legs, not kilowatts, set the limit.
 */
export function machinesByLegs(task: LegsTask): {
  readonly byPowerCount: number
  readonly perLegCount: number
  readonly byLegsCount: number
} {
  const holdsA = task.serviceA * task.holdsFrac
  const kVA = task.legs === 3 ? Math.sqrt(3) * task.lineLineV * holdsA : task.lineLineV * holdsA
  const perLegCount = whole(holdsA / (task.machineW / task.machineV))
  return { byPowerCount: whole(kVA / task.machineW), perLegCount, byLegsCount: perLegCount * task.legs }
}

/** Whole machines; a quotient within the last bits of a whole number is that number. */
const whole = (count: number): number => Math.floor(count + 1e-9)
