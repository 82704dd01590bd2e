import type { MotorStart, Plug } from '../../job/index.ts'
import { type Source, source } from '../../kernel/index.ts'
import type { Table } from '../../rules/index.ts'
import { ends } from './reactive.ts'
import type { Ends } from './result.ts'

/** Start over full-load current where the plate says nothing, both ends. Provenance: common practice */
const START_RATIO: Record<MotorStart, Ends> = {
  direct: { low: 5, high: 7 },
  'star-delta': { low: 1.7, high: 2.6 },
  soft: { low: 2.5, high: 4 },
  drive: { low: 1, high: 1.5 },
}

export interface Start {
  readonly currentA: Ends
  readonly apparentVA: Ends
  readonly said: string
  readonly rests: Source
}

const ROOT3 = Math.sqrt(3)

/**
 * What a motor draws as it starts, both ends: locked-rotor current as told (direct start), the ratio told, the code letter's kVA per hp,
 * else the usual ratio of its way of starting. Null for what is not a motor.
 *
 *   S = k·V·I,  k = 1 one phase, √3 three phase
 */
export function motorStart(plug: Plug, codeLetters: Table | undefined): Start | null {
  const plate = plug.motor
  if (plate === undefined) return null
  const k = plug.phases === 3 ? ROOT3 : 1
  const made = (currentA: Ends, said: string, rests: Source): Start => ({
    currentA,
    apparentVA: ends(currentA.low * plug.voltageV * k, currentA.high * plug.voltageV * k),
    said,
    rests,
  })
  const fullA = plate.fullLoadA ?? plug.currentA
  if (plate.start === 'direct' && plate.lockedRotorA !== undefined)
    return made(
      ends(plate.lockedRotorA, plate.lockedRotorA),
      `${plate.lockedRotorA} A locked rotor`,
      source('motor plate', 'told'),
    )
  if (plate.startRatio !== undefined) {
    return made(
      ends(plate.startRatio * fullA, plate.startRatio * fullA),
      `${plate.startRatio} times ${round(fullA)} A`,
      source('start ratio of the plate', 'told'),
    )
  }
  const letter =
    plate.start === 'direct' && plate.hp !== undefined ? codeLetters?.rows.find((row) => row[0] === plate.codeLetter) : undefined
  if (letter !== undefined && typeof letter[1] === 'number' && plate.hp !== undefined) {
    const high = typeof letter[2] === 'number' ? letter[2] : letter[1] * OPEN_TOP
    const current = (kVAPerHp: number) => (kVAPerHp * (plate.hp ?? 0) * 1000) / (k * plug.voltageV)
    return made(
      ends(current(letter[1]), current(high)),
      `code letter ${plate.codeLetter}, ${letter[1]} to ${round(high)} kVA per hp`,
      source('locked-rotor code letters', 'memory'),
    )
  }
  const ratio = START_RATIO[plate.start]
  return made(
    ends(ratio.low * fullA, ratio.high * fullA),
    `${plate.start} start, ${ratio.low} to ${ratio.high} times ${round(fullA)} A`,
    source('usual start ratios', 'common practice'),
  )
}

/** The last letter has no upper end: a quarter more than its lower one is taken. Provenance: assumed */
const OPEN_TOP = 1.25
const round = (value: number): number => Math.round(value * 10) / 10
