import type { BoxBody } from '../box/index.ts'
import {
  type AirDesign,
  type AirPins,
  airPinsOf,
  type BoxDesign,
  type HeaterPin,
  type Job,
  type SkinDesign,
  type VentWanted,
} from '../job/index.ts'
import { paintsOf } from './facts/paint.ts'
import { buildFigure } from './figures.ts'

export const AIR_DESIGN_READS = ['boxes', 'pins', 'builtBody'] as const
export type AirDesignJob = Pick<Job, (typeof AIR_DESIGN_READS)[number]>

/**
 * What keeps one box dry and cool, as it is pinned, before anything is weighed: a low vent and a high one across the box from it, in which
 * the box's fan sits where it has one, the heater that it is wired for, and the paint that is told. Pins are kept: `air.<box>.…`.
 */
export function designAir(of: {
  readonly job: AirDesignJob
  readonly body: BoxBody
  readonly designs: readonly BoxDesign[]
}): AirDesign {
  const { job, body, designs } = of
  const pins = airPinsOf(job.pins, body.box)
  const paints = paintsOf(job, body.box)
  const fan = fanOf(pins, ownW(designs, 'fan'))
  return {
    roofPaint: pins.roofPaint ?? paints.value.roof,
    wallPaint: pins.wallPaint ?? paints.value.walls,
    vents: ventsPlaced(ventsOf(body, pins.vents, fan !== null), pins.ventPlaces),
    winterOpenFrac: pins.winterOpenFrac ?? 1,
    roofFoamM: pins.roofFoamM ?? 0,
    wallFoamM: pins.wallFoamM ?? 0,
    bridgesFoamed: pins.bridgesFoamed ?? false,
    secondRoof: pins.secondRoof ?? false,
    fan,
    heater: heaterOf(job, body.box, pins, designs),
    dripHood: pins.dripHood ?? false,
    floorPainted: pins.floorPainted ?? false,
  }
}

/** A design with the choices that are pinned in place of its own; what no pin names stays as it is. */
export function airWith(air: AirDesign, pins: AirPins, body: BoxBody): AirDesign {
  const fan = pins.fan === null ? air.fan : pins.fan === 'no' ? null : { ...pins.fan, onAboveC: fanOnC(pins.fan.onAboveC, air) }
  const heater = pins.heater === null ? air.heater : pins.heater === 'no' ? null : heaterWith(air, pins.heater)
  const own = air.vents.find((v) => !v.fan)
  const blows = fan !== null
  const ventsWith = (): AirDesign['vents'] => {
    if (pins.vents !== null) return ventsOf(body, pins.vents, blows)
    if (blows === (air.fan !== null)) return air.vents
    // A fan that nobody cut a hole for gets the one it is made for.
    return [...ventsOf(body, own ?? 'no', blows).filter((v) => !v.fan), ...ventsOf(body, null, blows).filter((v) => v.fan)]
  }
  return {
    roofPaint: pins.roofPaint ?? air.roofPaint,
    wallPaint: pins.wallPaint ?? air.wallPaint,
    vents: ventsPlaced(ventsWith(), pins.ventPlaces),
    winterOpenFrac: pins.winterOpenFrac ?? air.winterOpenFrac,
    roofFoamM: pins.roofFoamM ?? air.roofFoamM,
    wallFoamM: pins.wallFoamM ?? air.wallFoamM,
    bridgesFoamed: pins.bridgesFoamed ?? air.bridgesFoamed,
    secondRoof: pins.secondRoof ?? air.secondRoof,
    fan,
    heater: heater === null ? null : { ...heater, humidistat: pins.humidistat ?? heater.humidistat },
    dripHood: pins.dripHood ?? air.dripHood,
    floorPainted: pins.floorPainted ?? air.floorPainted,
  }
}

const fanOnC = (told: number | null, { fan }: AirDesign): number => told ?? fan?.onAboveC ?? buildFigure('fan-on').value

const heaterWith = ({ heater }: AirDesign, told: HeaterPin): NonNullable<AirDesign['heater']> => ({
  ...{ at: told.at, powerW: told.powerW, humidistat: heater?.humidistat ?? false },
  onBelowC: told.onBelowC ?? heater?.onBelowC ?? buildFigure('heater-on').value,
})

/** Largest of the box's own loads of a kind, over its phases; null: it is wired for none. */
function ownW(designs: readonly BoxDesign[], kind: 'fan' | 'heater'): number | null {
  const loads = designs.flatMap((d) => d.circuits).flatMap((c) => (c.own === kind ? [c.ownLoad?.powerW ?? 0] : []))
  return loads.length === 0 ? null : Math.max(...loads)
}

function fanOf({ fan }: AirPins, wiredW: number | null): AirDesign['fan'] {
  const onAboveC = buildFigure('fan-on').value
  if (fan === 'no') return null
  if (fan !== null) return { ...fan, onAboveC: fan.onAboveC ?? onAboveC }
  return wiredW === null ? null : { powerW: wiredW, solar: false, onAboveC, byHumidity: false }
}

function heaterOf(job: AirDesignJob, box: string, pins: AirPins, designs: readonly BoxDesign[]): AirDesign['heater'] {
  const { heater } = pins
  const wiredW = ownW(designs, 'heater')
  const inCabinet = designs.some((d) => d.circuits.some((c) => c.ownLoad?.at === 'cabinet'))
  const powerW = heater === 'no' ? null : (heater?.powerW ?? wiredW)
  if (powerW === null) return null
  const told = heater === 'no' ? null : heater
  const held = job.boxes.find((b) => b.id === box)?.heatedC?.low
  return {
    at: told?.at ?? (inCabinet ? 'cabinet' : 'room'),
    powerW,
    onBelowC: told?.onBelowC ?? held ?? buildFigure('heater-on').value,
    humidistat: pins.humidistat ?? false,
  }
}

/** The pair of vents in the size that is pinned; without vents, the hole of a fan is left. */
function ventsOf(body: BoxBody, pinned: AirPins['vents'], fan: boolean): readonly VentWanted[] {
  const usual = buildFigure('vent-size').value
  const size = pinned === null || pinned === 'no' ? { widthMm: usual, heightMm: usual } : pinned
  const pair = ventPair(body, size.widthMm, size.heightMm, fan)
  return pinned === 'no' ? pair.filter((v) => v.fan) : pair
}

/** The same for a box whose openings are cut and whose air nobody designed: its vents as they are. */
export function airAsCut(of: Parameters<typeof designAir>[0] & { readonly skin: SkinDesign }): AirDesign {
  const vents = of.skin.openings
    .filter((o) => o.use === 'vent' || o.use === 'fan')
    .map(({ id, side, widthMm, heightMm, atMm, use }) => ({
      ...{ id, side, widthMm, heightMm, upMm: atMm[2] - of.body.insideAtMm[2], fan: use === 'fan' },
    }))
  return { ...designAir(of), vents }
}

/** Vents in the walls and at the heights that are pinned; the others where they stand. */
export function ventsPlaced(vents: readonly VentWanted[], places: AirPins['ventPlaces']): readonly VentWanted[] {
  if (places === null) return vents
  return vents.map((vent) => {
    const { side, upMm } = places[vent.id === LOW ? 'low' : 'high']
    return { ...vent, side: side ?? vent.side, upMm: upMm ?? vent.upMm }
  })
}

const LOW = 'vent low'

/** Low on the side away from the gear, high on the gear's side under the rail: a pair that draws by its height. */
export function ventPair(body: BoxBody, widthMm: number, heightMm: number, fan: boolean): readonly VentWanted[] {
  const more = (heightMm - buildFigure('vent-size').value) / 2
  const highMm = body.sides.left.sheet.highMm - buildFigure('vent-below-sheet').value - more
  const size = { widthMm, heightMm }
  return [
    { id: LOW, side: 'right', ...size, upMm: buildFigure('vent-low').value + more, fan: false },
    { id: fan ? 'fan' : 'vent high', side: 'left', ...size, upMm: highMm - body.insideAtMm[2], fan },
  ]
}
