import { type BoxBody, PADS } from '../box/index.ts'
import type { AirDesign, BoxDesign, FitDesign, HaulDesign, LiftMethod, SkinDesign } from '../job/index.ts'
import type { Prices } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { cornerLoadN, padSideMm, windTask } from './pads.ts'
import { pinsOf } from './pins.ts'
import { type HaulJob, lengthM, type Setting, settingOf, travelM } from './setting.ts'
import { amount, numberIn, rowsOf } from './shelf.ts'
import { allowedFor, methodsSaid } from './site.ts'
import { calledAngleDeg, isSlung } from './sling-plan.ts'
import { chosenFrame } from './snow-frame/choice.ts'
import { anchorsFor, windOnBox } from './wind-on-box.ts'

/**
 * How a box is lifted, held on the truck, set down and held there: the way the site names that the matrix allows a packed box, the gear
 * that follows from it, pads for the ground, anchors where the wind asks for them. Pins are kept.
 * `boxes`: the electrical designs of this box, whose cords may travel in it; without them no cord is counted.
 */
export function designHaul(of: {
  readonly job: HaulJob
  readonly body: BoxBody
  readonly fit: FitDesign
  readonly skin: SkinDesign
  /** Absent: no foam and no second roof. */
  readonly air?: AirDesign
  readonly rules: RuleSet
  readonly boxes?: readonly BoxDesign[]
  /** Absent: a snow frame is weighed by its mass. */
  readonly prices?: Prices
}): HaulDesign {
  const pins = pinsOf(of.job, of.body.box)
  const { job, body, skin, rules } = of
  const snowFrame = chosenFrame({ yard: job.yard, by: rules.build.snowBy, body, skin }, pins.snowFrame, of.prices ?? null)
  const setting = settingOf({ ...of, boxes: of.boxes ?? [], snowFrame })
  const unload = pins.unload ?? chosenUnload(setting)
  const lift = pins.lift ?? unload
  const slung = [lift, unload].find(isSlung)
  return {
    lift,
    slingAngleDeg: slung === undefined ? null : calledAngleDeg(setting, slung),
    slingLegs: slung === undefined ? 0 : 4,
    unload,
    lashings: lashingsFor(setting, unload),
    deckHeightM: deckFor(setting),
    pads: padsFor(setting, pins.pads),
    anchors: anchorsOf(setting, pins.anchors),
    snowFrame,
  }
}

/** First way that the site names and the matrix allows; the site silent: tilt-bed where it has the run, else slings from below. */
function chosenUnload(setting: Setting): LiftMethod {
  const { body, job } = setting
  const said = methodsSaid(job.yard.access.unload)
  const usable = (method: LiftMethod): boolean => {
    if (allowedFor(method, lengthM(body), 'packed') === 'not allowed') return false
    return !method.startsWith('forks') || body.pockets !== null
  }
  const named = said.methods.find(usable) ?? said.methods[0]
  if (named !== undefined) return named
  const run = job.yard.access.straightRunM
  const needed = amount(lengthM(body) > TWENTY_M ? 'run-40-low' : 'run-20-low')
  return usable('tilt-bed') && (run === null || run >= needed) && !said.dragged ? 'tilt-bed' : 'bottom slings with spreader'
}

const TWENTY_M = 6.1

/** A tilt-bed's box is chained at its four bottom fittings; any other rides on locks. */
function lashingsFor(setting: Setting, unload: LiftMethod): HaulDesign['lashings'] {
  if (unload !== 'tilt-bed') return [{ kind: 'twist-lock', count: 4, over: 'lock' }]
  const kind = CHAINS[setting.rules.build.securing.value.method]
  return [{ kind, count: 4, over: 'deck to cargo' }]
}

const CHAINS = { 'aggregate working load': 'chain 3/8 in grade 70', 'EN 12195-1': 'chain 8 mm grade 8' } as const

/** Highest usual deck on which the box stays under the route's limit; the lowest where none does. */
function deckFor(setting: Setting): number {
  const heights = rowsOf('decks')
    .map((row) => numberIn(row, 'height'))
    .toSorted((a, b) => b - a)
  const most = setting.rules.build.routeHeightM.value - amount('route-reserve') - travelM(setting)
  return heights.find((height) => height <= most) ?? heights.at(-1) ?? 0
}

function padsFor(
  setting: Setting,
  pinned: { readonly count: number; readonly lengthMm: number; readonly widthMm: number } | null,
): HaulDesign['pads'] {
  const what = `timber or concrete on compacted gravel, ${PADS.leastAirMm} mm high at least`
  if (pinned !== null) return { ...pinned, what }
  const side = padSideMm(cornerLoadN(setting).value, setting.job.yard.ground.bearingPa)
  return { count: lengthM(setting.body) > amount('pads-more-over') ? 6 : 4, lengthMm: side, widthMm: side, what }
}

/** Anchors where the unfavourable end of the wind slides or tips the box, or may. */
function anchorsOf(
  setting: Setting,
  pinned: { readonly count: number; readonly eachN: number | null } | null,
): HaulDesign['anchors'] {
  const task = windTask(setting)
  const wind = windOnBox(task)
  const what = anchorWords(setting.job.yard.ground.surface)
  if (pinned?.count === 0) return null
  if (wind === null) return pinned === null ? null : { count: pinned.count, what, eachN: pinned.eachN ?? 0 }
  const { slideN, gripN, overturnNm, rightNm } = wind.high
  if (pinned === null && slideN <= gripN && overturnNm <= rightNm) return null
  const count = pinned?.count ?? 4
  const { plan } = anchorsFor(task, wind.high, count)
  const step = amount('anchor-step')
  return { count, what, eachN: pinned?.eachN ?? Math.ceil(Math.hypot(plan.tensionN, plan.shearN) / step) * step }
}

function anchorWords(surface: string | null): string {
  const words = (surface ?? '').toLowerCase()
  if (/concrete|quay|slab/.test(words)) return 'bolted to the slab through the bottom fittings'
  if (/rock/.test(words)) return 'rock bolts, chained to the bottom fittings'
  return 'ground anchors or concrete blocks, chained to the bottom fittings'
}
