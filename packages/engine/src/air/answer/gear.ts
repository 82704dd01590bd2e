import { type BoxDesign, type FitDesign, SIDES } from '../../job/index.ts'
import { AT_SUN_WALL_K, type GearLimit, gearLimit, hotShareFrac, OVER_TRANSFORMER_K } from '../gear/index.ts'
import { CABINETS } from '../model/gear.ts'
import type { GearHours } from '../result.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { amount } from './figures.ts'
import { highestDayMean, least, most } from './hours.ts'

const FACES = 6
const WALLS = ['left', 'right', 'blind end', 'door end'].map((side) => SIDES.indexOf(side as (typeof SIDES)[number]))

/** A kind of gear that is in the box, by its row of table `gear-limits`. */
export interface GearPart {
  readonly gear: string
  /** Short, for the subject of a finding: `breakers`. */
  readonly name: string
  readonly what: string
  /** Above its calibration it carries less instead of failing. */
  readonly derates: boolean
  readonly limit: GearLimit
}

const FAMILY_ROWS: readonly (readonly [family: RegExp, gear: string, what: string])[] = [
  [/^us /, 'moulded-case breaker UL 489', 'breakers of the panel'],
  [/^IEC 60898/, 'miniature breaker IEC 60898-1', 'miniature breakers of the panel'],
  [/^IEC 60947/, 'breaker IEC 60947-2', 'large breakers of the panel'],
]

/** What of table `gear-limits` hangs in this box: by its devices, its shock protection, its own transformer, its controls. */
export function gearParts(designs: readonly BoxDesign[], fit: Pick<FitDesign, 'items'> | null): readonly GearPart[] {
  const devices = designs.flatMap((d) => [d.panel.main, ...d.circuits.map((c) => c.device)])
  const families = devices.map((d) => d.family)
  const inside = (fit?.items ?? []).filter((i) => i.face === 'inside')
  const parts: GearPart[] = []
  const add = (gear: string, name: string, what: string, derates = false) => {
    if (parts.some((p) => p.gear === gear)) return
    parts.push({ gear, name, what, derates, limit: gearLimit(gear) })
  }
  for (const [family, gear, what] of FAMILY_ROWS)
    if (families.some((f) => family.test(f))) add(gear, what.split(' of ')[0]!, what, true)
  if (families.some((f) => /^IEC|^gG/.test(f))) add('IEC assemblies indoors (IEC 61439-1)', 'panel', 'panel as an assembly')
  if (designs.some((d) => d.circuits.some((c) => c.shock.kind === 'class A' || c.shock.kind === 'equipment 30 mA')))
    add('GFCI UL 943', 'ground-fault devices', 'ground-fault devices')
  if (designs.some((d) => d.transformer !== null))
    add('dry transformer, 40 C ambient class', 'transformer', 'transformer of its own')
  if (designs.some((d) => d.staging.control !== 'none') || inside.some((i) => i.kind === 'controls' || i.kind === 'contactors'))
    add('electronic controller, commercial', 'controls', 'controls that hold starts apart')
  if (inside.some((i) => i.kind === 'meter')) add('revenue meter ANSI C12.1', 'meter', 'meter inside the box')
  return parts
}

/** Air of the room and at the gear, hour by hour: where it is hottest about it, and coldest. */
export interface AirInRun {
  readonly airC: Float64Array
  readonly hotC: Float64Array
  readonly coldC: Float64Array
}

/**
 * Air at the gear: the hotter of the box's air and the gear's own temperature; on a wall in the sun up to 5 K more, never more than the
 * wall's sheet is over the air; over a transformer 10 K more. In the cold, the colder of the two; where the heater stands in the gear's cabinet, the gear's.
 */
export function airAtGear(model: BoxModel, run: YearRun, fit: Pick<FitDesign, 'items'> | null): AirInRun {
  const { airC, gearC, faceC } = run.series
  const panel = fit?.items.find((i) => i.kind === 'panel' && i.face === 'inside')
  const walls = panel === undefined || !WALLS.includes(SIDES.indexOf(panel.side)) ? WALLS : [SIDES.indexOf(panel.side)]
  const cabinet = model.heater?.at === 'cabinet'
  const overK = hangsOverTransformer(fit) ? OVER_TRANSFORMER_K : 0
  const hotC = new Float64Array(run.hoursCount)
  const coldC = new Float64Array(run.hoursCount)
  for (let h = 0; h < run.hoursCount; h += 1) {
    const air = airC[h] as number
    const gear = gearC[h] as number
    let wall = Number.NEGATIVE_INFINITY
    for (const side of walls) wall = Math.max(wall, faceC[h * FACES + side] as number)
    hotC[h] = Math.max(gear, air + overK + Math.min(AT_SUN_WALL_K, Math.max(0, wall - air)))
    coldC[h] = cabinet ? gear : Math.min(air, gear)
  }
  return { airC, hotC, coldC }
}

/** What carries current and hangs, whole or in part, in the air that rises from a transformer. */
function hangsOverTransformer(fit: Pick<FitDesign, 'items'> | null): boolean {
  const inside = (fit?.items ?? []).filter((i) => i.face === 'inside')
  const under = inside.filter((i) => i.kind === 'transformer')
  return inside.some(
    (i) =>
      CABINETS.has(i.kind) &&
      under.some(
        (t) =>
          i.atMm[2] >= t.atMm[2] + t.sizeMm[2] &&
          [0, 1].every((k) => i.atMm[k]! < t.atMm[k]! + t.sizeMm[k]! && t.atMm[k]! < i.atMm[k]! + i.sizeMm[k]!),
      ),
  )
}

/** Hours of one part beyond its limits: heat of one run, cold of the same or another; `within`: only the hours that are marked. */
export function gearHours(
  part: GearPart,
  hotAt: AirInRun,
  coldAt: AirInRun = hotAt,
  within: Uint8Array | null = null,
): GearHours {
  const { leastC, mostC, dayMeanMostC } = part.limit
  // A transformer stands free in the room: its limits are of the room's air.
  const free = part.name === 'transformer'
  const [hotAll, coldAll] = [free ? hotAt.airC : hotAt.hotC, free ? coldAt.airC : coldAt.coldC]
  // Hours that do not count are as mild as none: below every heat, above every cold.
  const hot = within === null ? hotAll : hotAll.map((c, h) => (within[h] === 1 ? c : NO_HEAT_C))
  const cold = within === null ? coldAll : coldAll.map((c, h) => (within[h] === 1 ? c : NO_COLD_C))
  const hottest = most(hot)
  const coldest = least(cold)
  let [below, above] = [0, 0]
  for (let h = 0; h < hot.length; h += 1) {
    if (leastC !== null && (cold[h] as number) < leastC) below += 1
    if (mostC !== null && (hot[h] as number) > mostC) above += 1
  }
  return {
    ...{ gear: part.gear, what: part.what, leastC, mostC, dayMeanMostC },
    ...{ coldestC: coldest.value, coldestAtH: coldest.atH, hottestC: hottest.value, hottestAtH: hottest.atH },
    ...{ dayMeanC: highestDayMean(hot).value, belowH: below, aboveH: above },
  }
}

const NO_HEAT_C = -273
const NO_COLD_C = 1000

/** Temperature a breaker of this kind is calibrated at, as its row says; 30 °C where its maker may choose. */
export const calibratedC = (part: GearPart): number =>
  Number(/take (\d+) unless marked/.exec(part.limit.humidity)?.[1] ?? /calibrated at (\d+) C/.exec(part.limit.humidity)?.[1])

/** Share of its rating that such a breaker still holds. @throws Fault `air/derate-range` */
export const breakerHoldsFrac = (part: GearPart, airC: number): number => hotShareFrac(airC, calibratedC(part))

/** Hottest air at the gear among hours under load; null where no hour is loaded. */
export function hottestLoaded(
  run: YearRun,
  at: AirInRun,
  within: Uint8Array | null = null,
): { readonly airC: number; readonly atH: number } | null {
  const { gearHeatWh } = run.series
  const from = most(gearHeatWh).value * amount('load-share')
  let found: { readonly airC: number; readonly atH: number } | null = null
  for (let h = 0; h < run.hoursCount; h += 1) {
    const heat = gearHeatWh[h] as number
    if (within !== null && within[h] !== 1) continue
    if (heat > 0 && heat >= from && (found === null || (at.hotC[h] as number) > found.airC))
      found = { airC: at.hotC[h] as number, atH: h }
  }
  return found
}
