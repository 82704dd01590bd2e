import type { AirDesign } from '../../job/index.ts'
import type { Mend } from '../../kernel/index.ts'

/** Remedies not taken yet, as changes to the choices under `air.<box>`, in the order they pay. */
export interface Remedies {
  readonly cooler: readonly Mend[]
  readonly drier: readonly Mend[]
  readonly warmer: readonly Mend[]
  readonly hood: readonly Mend[]
  readonly throttle: readonly Mend[]
}

export function remedies(box: string, air: AirDesign): Remedies {
  const pin = (name: string, value: Mend['value'], words: string): Mend => ({ path: `air.${box}.${name}`, value, words })
  const only = (wanted: boolean, mend: Mend): readonly Mend[] => (wanted ? [mend] : [])
  const paint = only(!/^white/.test(air.roofPaint), pin('roof-paint', 'white', 'a white roof'))
  const second = only(!air.secondRoof, pin('second-roof', 'yes', 'a second roof over it'))
  const vents = ventMend(air, pin)
  const foam = only(air.roofFoamM === 0, pin('roof-foam', '25 mm', '25 mm of foam under the roof'))
  const fan = only(
    air.fan === null,
    pin('fan', '60 W by humidity', 'a fan that runs by the heat inside, and when the air outside is drier'),
  )
  const heater = only(
    air.heater === null || air.heater.at !== 'cabinet',
    pin('heater', '200 W cabinet', 'a heater in the gear’s cabinet, not in the room'),
  )
  const humidistat = only(
    air.heater !== null && !air.heater.humidistat,
    pin('humidistat', 'yes', 'the heater runs by humidity too'),
  )
  return {
    cooler: [...paint, ...vents, ...second, ...fan],
    drier: [...vents, ...foam, ...heater, ...humidistat],
    warmer: [...heater, ...foam],
    hood: only(!air.dripHood, pin('drip-hood', 'yes', 'a drip hood over the gear')),
    throttle: only(air.winterOpenFrac >= 1, pin('winter-open', '20 %', 'vents with a winter position, a fifth open')),
  }
}

/** Square vents of the next larger make; none where they are the largest. */
function ventMend(air: AirDesign, pin: (name: string, value: string, words: string) => Mend): readonly Mend[] {
  const smallest = Math.min(...air.vents.map((v) => Math.min(v.widthMm, v.heightMm)))
  const sizeMm = air.vents.length < 2 ? VENTS_MM[0] : VENTS_MM.find((mm) => mm > smallest)
  return sizeMm === undefined
    ? []
    : [
        pin(
          'vents',
          `${sizeMm} x ${sizeMm} mm`,
          `a low and a high vent of ${sizeMm} x ${sizeMm} mm with hoods, across the box from each other`,
        ),
      ]
}

const VENTS_MM = [300, 400, 600] as const
