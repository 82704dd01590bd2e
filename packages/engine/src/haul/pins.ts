import type { Job, LiftMethod, Pin } from '../job/index.ts'
import { METHODS } from './site.ts'

/** Decisions of a person on how one box is lifted and set down; a pin that cannot be read is kept apart, never passed over. */
export interface HaulPins {
  readonly lift: LiftMethod | null
  readonly unload: LiftMethod | null
  readonly pads: { readonly count: number; readonly lengthMm: number; readonly widthMm: number } | null
  readonly anchors: { readonly count: number; readonly eachN: number | null } | null
  readonly snowFrame: 'frame' | 'none' | null
  readonly unread: readonly { readonly pin: Pin; readonly wanted: string }[]
}

/** `4 of 600 x 600 mm`. */
const PADS = /^(\d+)\s*of\s*(\d+)\s*x\s*(\d+)\s*mm$/
/** `4 of 12 kN`, `none`, or a number. */
const ANCHORS = /^(\d+)(?:\s*of\s*([\d.]+)\s*kN)?$/

export function pinsOf(job: Pick<Job, 'pins'>, box: string): HaulPins {
  const unread: { pin: Pin; wanted: string }[] = []
  const read = <T>(name: string, wanted: string, of: (value: string) => T | null): T | null => {
    const pin = job.pins.find((one) => one.path === `haul.${box}.${name}`)
    if (pin === undefined) return null
    const value = of(String(pin.value).trim())
    if (value === null) unread.push({ pin, wanted })
    return value
  }
  const method = (value: string): LiftMethod | null => METHODS.find((one) => one === value) ?? null
  const methods = `one of ${METHODS.map((one) => `“${one}”`).join(', ')}`
  return {
    lift: read('lift', methods, method),
    unload: read('unload', methods, method),
    pads: read('pads', 'for example “4 of 600 x 600 mm”', (value) => {
      const [, count, lengthMm, widthMm] = PADS.exec(value)?.map(Number) ?? []
      if (count === undefined || lengthMm === undefined || widthMm === undefined) return null
      return count >= 4 && lengthMm > 0 && widthMm > 0 ? { count, lengthMm, widthMm } : null
    }),
    anchors: read('anchors', 'for example “4 of 12 kN”, or “none”', (value) => {
      if (value === 'none') return { count: 0, eachN: null }
      const hit = ANCHORS.exec(value)
      if (hit === null) return null
      const count = Number(hit[1])
      const whole = count === 0 || (count >= 4 && count % 2 === 0)
      return whole ? { count, eachN: hit[2] === undefined ? null : Number(hit[2]) * 1000 } : null
    }),
    snowFrame: read('snow-frame', '“frame” or “none”', (value) => (value === 'frame' || value === 'none' ? value : null)),
    unread,
  }
}
