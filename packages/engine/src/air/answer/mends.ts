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
  const paint = only(air.roofPaint !== WHITE, pin('roof-paint', WHITE, 'a white roof'))
  const second = only(!air.secondRoof, pin('second-roof', true, 'a second roof over it'))
  const vents = only(
    air.vents.length < 2,
    pin('vents', 'pair 300 x 300 mm', 'a low and a high vent with hoods, on opposite sides'),
  )
  const foam = only(air.roofFoamM === 0, pin('roof-foam', '25 mm', '25 mm of foam under the roof, no steel left bare'))
  const fan = only(air.fan === null, pin('fan', '30 W', 'a fan that runs by the air inside'))
  const heater = only(
    air.heater === null || air.heater.at !== 'cabinet',
    pin('heater', '200 W cabinet', 'a heater in the gear’s cabinet, not in the room'),
  )
  const humidistat = only(
    air.heater !== null && !air.heater.humidistat,
    pin('humidistat', true, 'the heater runs by humidity too'),
  )
  return {
    cooler: [...paint, ...vents, ...second, ...fan],
    drier: [...vents, ...foam, ...heater, ...humidistat],
    warmer: [...heater, ...foam],
    hood: only(!air.dripHood, pin('drip-hood', true, 'a drip hood over the gear')),
    throttle: only(air.winterOpenFrac >= 1, pin('winter-open', 0.2, 'vents with a winter position, a fifth open')),
  }
}

/** Row of table `surface-optics`. */
const WHITE = 'white epoxy, clean'
