import type { BoxBody } from '../../box/index.ts'
import type { AirDesign, Opening, Side, SkinDesign } from '../../job/index.ts'
import type { VentTold } from '../facts/built.ts'
import { amount } from '../figures.ts'
import { dischargeOf, openingDischargeRatio, SHARP_HOLE } from '../flow/discharge.ts'
import { STALL_FRAC } from '../flow/fan.ts'
import { dischargeInSeriesRatio, screenLossRatio } from '../flow/holes.ts'
import { DRIER_KG_PER_KG } from '../gear/heater.ts'
import { between, numberIn, rowsOf } from '../shelf.ts'
import type { BoxFan, BoxOpening } from '../year/types.ts'
import { MODEL_ENDS, type ModelEnd } from './ends.ts'

const HOODED = 'hooded vent with mesh, on face area'
/** Air through a vent moves slower than the tables' screens were tried at. */
const SLOW = 2
/** Air at which a fan's curve and its hood are put together. */
const AIR_KG_PER_M3 = 1.2

/** Open part of a square mesh by its clear width and wire, half of it gone where it is clogged. */
function meshOpenFrac(meshMm: number, end: ModelEnd): number {
  const side = meshMm / (meshMm + amount('mesh-wire'))
  return side * side * (end.vents === 'clear' ? 1 : 1 - amount('mesh-clogged'))
}

/**
 * Discharge of a vent on its face area, by hood and mesh in series. Hooded with its mesh clean it is the row of table `discharge`; what dirt
 * adds to the mesh lies in series with that. Without a hood a sharp hole and its mesh, twice the loss because air moves slowly.
 */
export function ventDischargeRatio(of: { readonly hood: boolean; readonly meshMm: number | null }, end: ModelEnd): number {
  if (of.meshMm === null)
    return of.hood
      ? openingDischargeRatio({ opening: SHARP_HOLE, screen: null, cloggedFrac: 0, hood: HOODED, slow: true })
      : dischargeOf(SHARP_HOLE)
  const loss = SLOW * screenLossRatio(meshOpenFrac(of.meshMm, end))
  if (!of.hood) return dischargeInSeriesRatio(dischargeOf(SHARP_HOLE), loss)
  const clean = SLOW * screenLossRatio(meshOpenFrac(of.meshMm, { ...end, vents: 'clear' }))
  return dischargeInSeriesRatio(dischargeOf(HOODED), loss - clean)
}

const areaM2 = (o: Pick<Opening, 'shape' | 'widthMm' | 'heightMm'>): number =>
  ((o.shape === 'round' ? Math.PI / 4 : 1) * o.widthMm * o.heightMm) / 1e6

/** Open area of a vent through its mesh, clean and after a season of dirt; both equal without a mesh. */
export function ventClearM2(of: Pick<Opening, 'shape' | 'widthMm' | 'heightMm' | 'meshMm'>): {
  readonly low: number
  readonly high: number
} {
  const open = (vents: ModelEnd['vents']): number =>
    areaM2(of) * (of.meshMm === null ? 1 : meshOpenFrac(of.meshMm, { ...MODEL_ENDS.middle, vents }))
  return { low: open('half clogged'), high: open('clear') }
}

/** Vents of the skin, and the hole of a fan that is not there. Where the words of a box that stands give its vents, those. */
export function openingsOf(of: {
  readonly body: BoxBody
  readonly skin: SkinDesign
  readonly air: AirDesign
  readonly told: readonly VentTold[] | null
  readonly end: ModelEnd
}): readonly BoxOpening[] {
  const { body, skin, air, told, end } = of
  if (told !== null)
    return told.map((v, i) => ventAsTold(body, v, told.slice(0, i).filter((w) => w.low === v.low).length, air, end))
  return skin.openings
    .filter((o) => o.use === 'vent' || (o.use === 'fan' && air.fan === null))
    .map((o) => ({
      id: o.id,
      side: o.side,
      areaM2: areaM2(o),
      heightM: (o.atMm[2] - body.insideAtMm[2]) / 1000,
      dischargeRatio: ventDischargeRatio(o, end),
      winterFrac: air.winterOpenFrac,
    }))
}

/**
 * Where a vent that is told sits: the first low one on the right, the first high one on the left, as the shop builds them, the next of each on the
 * other wall. Its free area counts without its mesh.
 */
function ventAsTold(body: BoxBody, vent: VentTold, nth: number, air: AirDesign, end: ModelEnd): BoxOpening {
  const side: Side = vent.low === (nth % 2 === 0) ? 'right' : 'left'
  const highMm = body.sides.left.sheet.highMm - body.insideAtMm[2] - amount('vent-below-sheet')
  const hood = openingDischargeRatio({ opening: SHARP_HOLE, screen: null, cloggedFrac: 0, hood: LOUVRE, slow: true })
  const dirty = vent.meshMm === null ? 0 : SLOW * screenLossRatio(meshOpenFrac(vent.meshMm, end))
  const clean = vent.meshMm === null ? 0 : SLOW * screenLossRatio(meshOpenFrac(vent.meshMm, { ...end, vents: 'clear' }))
  return {
    id: vent.id,
    side,
    areaM2: vent.freeM2,
    heightM: (vent.low ? amount('vent-low') : highMm) / 1000,
    dischargeRatio: dischargeInSeriesRatio(hood, dirty - clean),
    winterFrac: air.winterOpenFrac,
  }
}
const LOUVRE = 'weather louvre 45 deg, on free area'

/** A fan by its power, behind its hood and mesh: both losses grow with the square of the flow, so its curve keeps its form. */
export function fanOf(of: {
  readonly body: BoxBody
  readonly skin: SkinDesign
  readonly air: AirDesign
  readonly end: ModelEnd
}): BoxFan | null {
  const { fan } = of.air
  const hole = of.skin.openings.find((o) => o.use === 'fan')
  if (fan === null || hole === undefined) return null
  const { freeFlowM3s, shutPa } = fanByPower(fan.powerW)
  const throughM2 = ventDischargeRatio(hole, of.end) * areaM2(hole)
  const behind = AIR_KG_PER_M3 / 2 / (throughM2 * throughM2)
  return {
    side: hole.side,
    heightM: (hole.atMm[2] - of.body.insideAtMm[2]) / 1000,
    blows: 'out',
    freeFlowM3S: 1 / Math.sqrt(1 / (freeFlowM3s * freeFlowM3s) + behind / shutPa),
    shutPressurePa: shutPa,
    powerW: fan.powerW,
    onAboveC: fan.onAboveC,
    drierKgPerKg: fan.byHumidity ? DRIER_KG_PER_KG : null,
    solar: fan.solar ? { ratedWPerM2: amount('solar-rated'), startsAtFrac: STALL_FRAC } : null,
  }
}

/** Curve of a small axial fan, straight between the rows of table `air-fans`; smaller ones move by their power what the smallest does. */
export function fanByPower(powerW: number): { readonly freeFlowM3s: number; readonly shutPa: number } {
  const rows = rowsOf('air-fans')
  const powers = rows.map((row) => numberIn(row, 'power'))
  const at = (column: string) =>
    between(
      powers,
      rows.map((row) => numberIn(row, column)),
      powerW,
    )
  return { freeFlowM3s: at('free_flow') * Math.min(1, powerW / powers[0]!), shutPa: at('shut') }
}
