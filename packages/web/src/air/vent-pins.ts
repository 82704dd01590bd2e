import type { VentSide } from '@plugstead/engine/job'
import type { AirUnits, VentView } from '../worker/air/types.ts'

export interface Place {
  readonly side: VentSide
  readonly upMm: number
}
export type Places = Readonly<Record<'low' | 'high', Place | null>>

const MM_PER_IN = 25.4
/** A vent moves, and grows, by this: a hand's breadth on the wall, and a whole number of inches where a person reads inches. */
export const stepMm = (units: AirUnits): number => (units === 'us' ? 2 * MM_PER_IN : 50)
export const SIZE_MM = { least: 100, most: 610 } as const

const mmOf = (digits: string | undefined, unit: string | undefined): number => Number(digits) * (unit === 'in' ? MM_PER_IN : 1)

/** A length in the words of a pin, in the unit that a person reads: whole millimetres, tenths of an inch. */
const pinLength = (mm: number, units: AirUnits): string =>
  units === 'us' ? `${Math.round((mm / MM_PER_IN) * 10) / 10} in` : `${Math.round(mm)} mm`

/** Height of the opening in words of the pin `vents`; null: there is none, or other words stand there. */
export function sizeMmOf(value: string): number | null {
  const found = /^\d+(?:\.\d+)? x (\d+(?:\.\d+)?) (mm|in)$/.exec(value)
  return found === null ? null : mmOf(found[1], found[2])
}

export function sizeText(mm: number, units: AirUnits): string {
  const [digits, unit] = pinLength(mm, units).split(' ')
  return `${digits} x ${digits} ${unit}`
}

/** Places in words of the pin `vent-places`, as this room writes them. */
export function placesOf(value: string | undefined): Places {
  const out: { low: Place | null; high: Place | null } = { low: null, high: null }
  for (const [, which, side, digits, unit] of (value ?? '').matchAll(
    /(low|high) (left|right|blind end) (\d+(?:\.\d+)?) (mm|in)/g,
  ))
    out[which as 'low' | 'high'] = { side: side as VentSide, upMm: mmOf(digits, unit) }
  return out
}

export const placesText = (vents: readonly (Place & { readonly low: boolean })[], units: AirUnits): string =>
  vents.map((v) => `${v.low ? 'low' : 'high'} ${v.side} ${pinLength(v.upMm, units)}`).join(', ')

/** Heights of the middle at which all of an opening lies on the sheet. */
export function rangeMm(
  { sheetMm }: Pick<VentView, 'sheetMm'>,
  heightMm: number,
): { readonly least: number; readonly most: number } {
  const [least, most] = [sheetMm.low + heightMm / 2, sheetMm.high - heightMm / 2]
  return least <= most ? { least, most } : { least: (least + most) / 2, most: (least + most) / 2 }
}

/** The next step up or down from where it is, the first of them onto the grid of steps. */
export const stepped = (mm: number, steps: number, step: number): number =>
  (steps > 0 ? Math.floor(mm / step + 1e-6) + steps : Math.ceil(mm / step - 1e-6) + steps) * step

/** Onto the grid of steps, and within the range: its ends are places too. */
export const snapped = (mm: number, step: number, { least, most }: { readonly least: number; readonly most: number }): number =>
  Math.max(least, Math.min(most, Math.round(mm / step) * step))
