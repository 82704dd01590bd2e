import { type Finding, formatNumber, formatQuantity, type Provenance, type Source, THIN } from '@plugstead/engine/kernel'
import type { Column, Inline, Span } from './content.ts'

const SIGNS: Readonly<Record<Provenance, string>> = {
  read: '■ read',
  memory: '◧ memory',
  'common practice': '□ common practice',
  computed: '',
  told: 'told',
  assumed: 'assumed',
}

/** Sign and word of a provenance; nothing for what was computed. */
export const provenanceWords = (provenance: Provenance): string => SIGNS[provenance]

/** Where a line comes from: place, edition where it is another one, sign and word; “confirm” where a row from memory decides. */
export function restsOf(rests: Source, confirm: boolean): string {
  const edition = rests.edition === undefined ? '' : ` (${rests.edition})`
  const sign = provenanceWords(rests.provenance)
  const asked = confirm && rests.provenance === 'memory' ? ': confirm' : ''
  return plain(`${rests.place}${edition}${sign === '' ? '' : /^\p{L}/u.test(sign) ? `, ${sign}` : ` ${sign}`}${asked}`)
}

const UNITS = 'g/m²|W/m²|kA|mA|A²s|A|kV|V|kVA|VA|kW|kWh|W|var|kvar|mΩ|Ω|km|mm²|mm|m|ms|s|h|°C|%|Hz|AWG|kcmil|hp'
const NUMBER_UNIT = new RegExp(`(\\d) (${UNITS})(?![\\p{L}\\d])`, 'gu')

/** A sentence set for paper: a number and its unit never part, a hyphen before a number is a minus. */
export const plain = (words: string): string =>
  words
    .replace(/\bmm2\b/g, 'mm²')
    .replace(NUMBER_UNIT, `$1${THIN}$2`)
    .replace(/(^|[\s(])-(?=\d)/g, '$1−')

export const marked = (verdict: string, words: string): Inline => [['mark', verdict], ` ${words}`]

/** One value where both ends are equal; else both, with end bars. */
export function spanOf(ends: { readonly low: number; readonly high: number }, unit: string, digits?: number): Span {
  const style = digits === undefined ? {} : { digits }
  const low = formatQuantity(ends.low, unit, style)
  const high = formatQuantity(ends.high, unit, style)
  if (low === high) return low
  const number = formatNumber(ends.low, style)
  return [
    'bounded',
    low.endsWith(high.slice(high.lastIndexOf(THIN))) && low.startsWith(number) && high.startsWith(formatNumber(ends.high, style))
      ? `${number} … ${high}`
      : `${low} … ${high}`,
  ]
}

export const quantity = (value: number | null, unit: string, otherwise = '–'): string =>
  value === null ? otherwise : formatQuantity(value, unit)
export const number = (value: number | null, otherwise = '–'): string => (value === null ? otherwise : formatNumber(value))

/** A share as per cent. One too small to show says so and is not written out. */
export function percent(frac: number | null, otherwise = '–'): string {
  if (frac === null) return otherwise
  return frac !== 0 && Math.abs(frac) < LEAST_SHOWN_FRAC ? `below 0.01${THIN}%` : formatQuantity(frac * 100, '%')
}
const LEAST_SHOWN_FRAC = 1e-4

export const money = (value: number | null, currency: string, otherwise = 'not told'): string =>
  value === null ? otherwise : `${formatNumber(Math.round(value))}${THIN}${currency}`

export function moneySpan(ends: { readonly low: number; readonly high: number } | null, currency: string): Span {
  if (ends === null) return 'not told'
  const low = Math.round(ends.low)
  const high = Math.round(ends.high)
  return low === high ? money(low, currency) : ['bounded', `${formatNumber(low)} … ${money(high, currency)}`]
}

export const col = (title: string, widthMm = 0, align: Column['align'] = 'left'): Column => ({ title, widthMm, align })
export const right = (title: string, widthMm = 0): Column => col(title, widthMm, 'right')

const RANK: Readonly<Record<string, number>> = { fails: 0, unknown: 1, tight: 2, holds: 3 }

/** Worst first; equal ones as they came. */
export const worstFirst = (findings: readonly Finding[]): readonly Finding[] =>
  findings
    .map((f, i) => ({ f, i }))
    .sort((a, b) => RANK[a.f.verdict]! - RANK[b.f.verdict]! || a.i - b.i)
    .map((x) => x.f)

/** Box, and its phase where there is more than one. */
export function boxName(
  of: { readonly box: string; readonly phase: string },
  all: readonly { readonly box: string; readonly phase: string }[],
): string {
  const phases = new Set(all.map((b) => b.phase))
  return phases.size > 1 ? `box ${of.box}, ${of.phase}` : `box ${of.box}`
}
