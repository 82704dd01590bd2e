import type { Assumption, BoxWanted, Job } from '../../job/index.ts'

export interface FaultTemperatures {
  /** Of all conductors for the most current: the coldest the site has been told to see. */
  readonly coldC: number
  /** Of conductors in the box and feed for the least. */
  readonly hotC: number
  readonly cordHotC: number
  /** Of the devices: coldest and hottest the inside of the box stands at. */
  readonly deviceColdC: number
  readonly deviceHotC: number
  readonly assumed: readonly Assumption[]
}

/** A conductor that nobody called cold. @source common practice, “20–25 °C or colder for a cold site”. Provenance: common practice */
const ROOM_C = 20

/**
 * Working temperature of a loaded conductor by its insulation; North American building wire by its 75 °C terminals.
 * @source insulation classes of NEC Table 310.4, IEC 60364-5-52 Table 52.1. Provenance: memory
 */
function workingC(insulation: string): number {
  if (/^PVC|^H05VV/.test(insulation)) return 70
  if (/^XLPE|^EPR/.test(insulation)) return 90
  if (/^H07RN/.test(insulation)) return 60
  return 75
}

/** Temperatures that make the highest and the lowest fault of a box. A site that nobody called cold takes 20 °C and says so. */
export function faultTemperatures(
  job: Job,
  wanted: BoxWanted | undefined,
  insulation: { readonly run: string; readonly cord: string },
): FaultTemperatures {
  const { extremeMinC, designMinC } = job.site
  const told = extremeMinC ?? designMinC
  const assumed: Assumption[] = []
  if (told === null) {
    assumed.push({
      path: 'facts.site.climate.extremeMin',
      said: `conductors taken at ${ROOM_C} °C for the highest fault current`,
      source: 'common practice',
    })
  }
  return {
    coldC: Math.min(told ?? ROOM_C, ROOM_C),
    hotC: workingC(insulation.run),
    cordHotC: workingC(insulation.cord),
    deviceColdC: coldestDeviceC(wanted?.insideColdC, told),
    deviceHotC: wanted?.insideHotC.high ?? ROOM_C,
    assumed,
  }
}

/** A box that its heater keeps warm is as cold as outside when it is switched on after an outage: a trip then is at its slowest. */
function coldestDeviceC(inside: BoxWanted['insideColdC'] | undefined, outsideC: number | null): number {
  if (inside === undefined) return ROOM_C
  return inside.computed === true && outsideC !== null ? Math.min(inside.low, outsideC) : inside.low
}
