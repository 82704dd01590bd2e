import { formatQuantity, type NumberStyle, THIN } from '@plugstead/engine/kernel'
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

const IN_WORDS = /(−|-)?(\d[\d \u202f]*(?:\.\d+)?)([ \u202f])(kN·m|kN|kPa|kg|mm|m|°C|C)(?![\p{L}\d²³/·])/gu

/** A sentence of the engine, its lengths, masses and forces in the units a person reads. */
export function sentence(said: string, units: Units): string {
  if (units === 'metric') return said
  return said.replace(IN_WORDS, (whole, sign: string | undefined, digits: string, space: string, unit: string) => {
    const us = US[unit === 'C' ? '°C' : unit]
    if (us === undefined) return whole
    const value = (sign === undefined ? 1 : -1) * Number(digits.replace(/[ \u202f]/g, ''))
    const there = value * us.factor + (us.shift ?? 0)
    return `${formatQuantity(there, us.unit).replace(THIN, space)}`
  })
}

/** Both ends of a bounded value, the unit once where they share it: 3.1 … 17.4 kA. */
export function shownSpan(low: number, high: number, unit: string, units: Units): string {
  const [a, b] = [shown(low, unit, units), shown(high, unit, units)]
  const [numberA, unitA] = a.split(THIN)
  return unitA !== undefined && unitA === b.split(THIN)[1] ? `${numberA} … ${b}` : `${a} … ${b}`
}
