import { worst } from '@plugstead/engine/kernel'
import type { Preferences } from '../hands/preferences.ts'
import { sentence, shown } from '../hands/units.ts'
import type { Words } from '../words/en.ts'
import type { InHand } from './hand.ts'
import { longestOf } from './in-yard.ts'

/** “G4, 32 m, 115.2 V, 4.1 % lost, tight”, or where a thing is on its side. */
export function handWords({ moving, reach }: InHand, words: Words, units: Preferences['units']): readonly string[] {
  if (moving.kind === 'thing') {
    const metres = (value: number): string => shown(Math.round(value * 1000) / 1000, 'm', units)
    const { side, alongM, upM } = moving.place
    return [moving.line.letters, words.sides[side], words.move.where(metres(alongM), metres(upM))]
  }
  const { line, stand } = moving
  const [name, length] = [line.id, shown(longestOf(stand), 'm', units)]
  if (reach === null || reach.length === 0) return [name, length]
  const volts = reach.flatMap((r) => (r.voltageV === null ? [] : [r.voltageV]))
  const drop = reach.flatMap((r) => (r.dropFrac === null ? [] : [r.dropFrac]))
  return [
    name,
    length,
    ...(volts.length === 0 ? [] : [shown(Math.min(...volts), 'V', units, { digits: 4 })]),
    ...(drop.length === 0 ? [] : [words.move.lost(shown(100 * Math.max(...drop), '%', units))]),
    words.verdicts[worst(reach.map((r) => r.verdict))],
  ]
}

/** What fails of it, and what would mend it. */
export function mendWords({ reach }: InHand, words: Words, units: Preferences['units']): string {
  const [said] = reach?.flatMap((r) => r.said) ?? []
  const mends = [...new Set(reach?.flatMap((r) => r.mends) ?? [])].slice(0, 2)
  if (said === undefined) return ''
  return `${sentence(said, units)}${mends.length === 0 ? '' : ` ${words.move.mends(mends.join('; '))}`}`
}
