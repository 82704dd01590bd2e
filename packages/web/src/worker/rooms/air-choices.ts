import type { AirDesign } from '@plugstead/engine/job'
import { airPath, PAINTS, type VentSide, ventPlacesSaid } from '@plugstead/engine/job'
import type { AtWork } from '../at-work.ts'
import type { Choice } from '../protocol.ts'
import { choice } from '../thing-facts.ts'

const YES_NO = ['yes', 'no']
const FOAMS = ['no', '25 mm', '50 mm', '75 mm', '100 mm']
const VENTS = ['no', '200 x 200 mm', '300 x 300 mm', '400 x 400 mm', '500 x 500 mm']
const FANS = ['no', '60 W', '100 W', '60 W by humidity', '12 W solar']
const HEATERS = ['no', '500 W room', '1500 W room', '100 W cabinet', '150 W cabinet']
const OPEN = ['100 %', '50 %', '30 %', '10 %', '0 %']

const yes = (is: boolean): string => (is ? 'yes' : 'no')
const foam = (thickM: number): string => (thickM === 0 ? 'no' : `${Math.round(thickM * 1000)} mm`)

function ventWords({ vents }: AirDesign): string {
  const vent = vents.find((v) => !v.fan)
  return vent === undefined ? 'no' : `${vent.widthMm} x ${vent.heightMm} mm`
}

const cutIn = (side: string): side is VentSide => side === 'left' || side === 'right' || side === 'blind end'
const placed = ({ vents }: AirDesign) =>
  vents.flatMap(({ id, side, upMm }) => (cutIn(side) ? [{ low: id === 'vent low', side, upMm }] : []))
const across = (side: VentSide): VentSide => (side === 'left' ? 'right' : 'left')

/** Where the vents stand, and the same with the walls changed about; nothing where there is none. */
function placeOptions(air: AirDesign): readonly string[] {
  const vents = placed(air)
  return vents.length === 0 ? [] : [vents, vents.map((v) => ({ ...v, side: across(v.side) }))].map(ventPlacesSaid)
}

function fanWords({ fan }: AirDesign): string {
  if (fan === null) return 'no'
  return `${fan.powerW} W${fan.solar ? ' solar' : ''}${fan.byHumidity ? ' by humidity' : ''}`
}

const heaterWords = ({ heater }: AirDesign): string => (heater === null ? 'no' : `${heater.powerW} W ${heater.at}`)

/** What keeps a box, the first where none is named, dry and cool, as it is built, and what it may be instead; each in the words that its pin takes. */
export function airChoices(at: AtWork, named?: string): readonly Choice[] {
  const build = at.found.design.builds.find((b) => b.box === named) ?? at.found.design.builds[0]
  if (build === undefined) return []
  const { air, box } = build
  const places = placeOptions(air)
  const one = (key: Choice['key'], name: Parameters<typeof airPath>[1], value: string, options: readonly string[]): Choice => ({
    ...choice(at, key, value, '', airPath(box, name)),
    options,
  })
  return [
    one('roof paint', 'roof-paint', air.roofPaint, PAINTS),
    one('wall paint', 'wall-paint', air.wallPaint, PAINTS),
    one('vents', 'vents', ventWords(air), VENTS),
    ...(places[0] === undefined ? [] : [one('vent places', 'vent-places', places[0], places)]),
    one('winter', 'winter-open', `${Math.round(air.winterOpenFrac * 100)} %`, OPEN),
    one('roof foam', 'roof-foam', foam(air.roofFoamM), FOAMS),
    one('wall foam', 'wall-foam', foam(air.wallFoamM), FOAMS),
    one('rails foamed', 'bridges-foamed', yes(air.bridgesFoamed), YES_NO),
    one('second roof', 'second-roof', yes(air.secondRoof), YES_NO),
    one('fan', 'fan', fanWords(air), FANS),
    one('heater', 'heater', heaterWords(air), HEATERS),
    one('humidistat', 'humidistat', yes(air.heater?.humidistat === true), YES_NO),
    one('drip hood', 'drip-hood', yes(air.dripHood), YES_NO),
    one('floor painted', 'floor-painted', yes(air.floorPainted), YES_NO),
  ]
}
