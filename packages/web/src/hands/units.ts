import { formatNumber, formatQuantity, type NumberStyle, THIN } from '@plugstead/engine/kernel'
import type { Preferences } from './preferences.ts'

type Units = Preferences['units']

/** Units that a person in US units reads otherwise. Trade sizes are names and stay. */
const US: Readonly<Record<string, { readonly factor: number; readonly shift?: number; readonly unit: string }>> = {
  mm: { factor: 1 / 25.4, unit: 'in' },
  m: { factor: 1 / 0.3048, unit: 'ft' },
  kg: { factor: 1 / 0.45359237, unit: 'lb' },
  kN: { factor: 1000 / 4.4482216152605, unit: 'lbf' },
  kN·m: { factor: 1000 / 1.3558179483314, unit: 'lbf·ft' },
  kPa: { factor: 1000 / 47.88025898, unit: 'psf' },
  '°C': { factor: 1.8, shift: 32, unit: '°F' },
  K: { factor: 1.8, unit: '°F' },
  'm/s': { factor: 1 / 0.44704, unit: 'mph' },
  'm³/h': { factor: 1 / 1.699010796, unit: 'cfm' },
  l: { factor: 1 / 3.785411784, unit: 'gal' },
}

/** A number with its unit, in the units a person reads. */
export function shown(value: number | string, unit: string, units: Units, style: NumberStyle = {}): string {
  const us = units === 'us' ? US[unit] : undefined
  if (us === undefined) return formatQuantity(value, unit, style)
  if (typeof value === 'number') return formatQuantity(value * us.factor + (us.shift ?? 0), us.unit, style)
  // Sizes in words, 120 × 90 × 120.
  const numbers = value.replace(/\d+(\.\d+)?/g, (n) => (Number(n) * us.factor).toFixed(1))
  return `${numbers}${THIN}${us.unit}`
}

/** A number so rounded in the units a person reads. */
export function shownTo(decimals: number, value: number, unit: string, units: Units): string {
  const us = units === 'us' ? US[unit] : undefined
  const there = us === undefined ? value : value * us.factor + (us.shift ?? 0)
  const rounded = Math.round(there * 10 ** decimals) / 10 ** decimals || 0
  return `${formatNumber(rounded, { digits: 4, shortest: true })}${THIN}${us?.unit ?? unit}`
}

const NUMBER = String.raw`[−-]?\d(?:[ \u202f]?\d)*(?:\.\d+)?`
/** “12 to 14 m”, “300 x 300 mm”: the unit at the end is that of all of them. */
const JOINED = String.raw`(?:[ \u2009\u202f]?[x×…][ \u2009\u202f]?| to | and )`
const IN_WORDS = new RegExp(
  String.raw`(?<![\p{L}\d.])((?:${NUMBER}${JOINED})*${NUMBER})([ \u202f])(kN·m|kN|kPa|kg|mm|m³/h|m/s|m|l|K|°C|C)(?![\p{L}\d²³/·])`,
  'gu',
)
const NUMBERS = new RegExp(NUMBER, 'g')

/** A sentence of the engine, its lengths, masses and forces in the units a person reads. */
export function sentence(said: string, units: Units): string {
  if (units === 'metric') return said
  return said.replace(IN_WORDS, (whole, numbers: string, space: string, unit: string) => {
    const us = US[unit === 'C' ? '°C' : unit]
    if (us === undefined) return whole
    const there = numbers.replace(NUMBERS, (number) => {
      const value = Number(number.replace(/[ \u202f]/g, '').replace('−', '-'))
      return formatQuantity(value * us.factor + (us.shift ?? 0), '')
    })
    return `${there}${space}${us.unit}`
  })
}

/** Both ends of a bounded value, the unit once where they share it: 3.1 … 17.4 kA. */
export function shownSpan(low: number, high: number, unit: string, units: Units): string {
  return joined(shown(low, unit, units), shown(high, unit, units))
}

/** Both ends as they are said, the unit once where they share it. */
export function joined(a: string, b: string): string {
  const [numberA, unitA] = a.split(THIN)
  return unitA !== undefined && unitA === b.split(THIN)[1] ? `${numberA} … ${b}` : `${a} … ${b}`
}
