import type { BoxBody } from '../box/index.ts'
import type { AirDesign, BoxDesign, FitDesign, Job, SkinDesign, SnowFrame } from '../job/index.ts'
import type { Worked } from '../kernel/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { bareItems, cordItems, fittedItems } from './contents.ts'
import { massCentre } from './mass.ts'
import type { MassCentre, MassItem, SnowFramePlan } from './result.ts'
import { amount } from './shelf.ts'
import type { FourPoints } from './slings.ts'
import { planOfFrame, seatsItem } from './snow-frame/plan.ts'

/** What of a job lifting, hauling and setting down are judged by. */
export const HAUL_READS = ['rules', 'boxes', 'yard', 'pins', 'built', 'builtBody', 'surveys', 'site'] as const
export type HaulJob = Pick<Job, (typeof HAUL_READS)[number]>

/** One box, what is built into it, and what it weighs. */
export interface Setting {
  readonly job: HaulJob
  readonly rules: RuleSet
  readonly body: BoxBody
  readonly fit: FitDesign
  readonly skin: SkinDesign
  /** Absent: no foam and no second roof. */
  readonly air?: AirDesign
  /** Stands over the roof and does not travel on it; null: none. */
  readonly frame: SnowFramePlan | null
  readonly items: readonly MassItem[]
  readonly empty: Worked<MassCentre>
  readonly fitted: Worked<MassCentre>
  /** As fitted, the cords lying in it; null without cords. */
  readonly corded: Worked<MassCentre> | null
  /** On the scale with what is built in; null: nobody weighed it. */
  readonly weighedKg: number | null
  readonly heavyKg: number
  readonly lightKg: number
  /** Farthest off the middle over every state that travels. */
  readonly offXMm: number
  readonly offYMm: number
  /** Highest the centre may lie. */
  readonly highZMm: number
}

export function settingOf(of: {
  readonly job: HaulJob
  readonly rules: RuleSet
  readonly body: BoxBody
  readonly fit: FitDesign
  readonly skin: SkinDesign
  readonly air?: AirDesign
  readonly boxes: readonly BoxDesign[]
  readonly snowFrame: SnowFrame | null
}): Setting {
  const { body } = of
  const size = { lengthMm: body.outsideMm[0], widthMm: body.outsideMm[1] }
  const frame = of.snowFrame === null ? null : planOfFrame(body, of.snowFrame)
  const items = [...fittedItems(of), ...(frame === null ? [] : [seatsItem(frame)])]
  const cords = cordItems(of)
  const empty = massCentre(bareItems(body), { state: 'empty', ...size })
  const weighedKg = onScaleKg(of.job, body)
  const fitted = weighed(massCentre(items, { state: 'fitted', ...size }), weighedKg)
  const corded =
    cords.length === 0
      ? null
      : weighed(massCentre([...items, ...cords], { state: 'fitted with cords', ...size }), weighedKg, cords)
  const travelling = corded === null ? [fitted.value] : [fitted.value, corded.value]
  return {
    ...of,
    frame,
    items: [...items, ...cords],
    empty,
    fitted,
    corded,
    weighedKg,
    heavyKg: Math.max(...travelling.map((one) => one.massKg.high)),
    lightKg: fitted.value.massKg.low,
    offXMm: Math.max(...travelling.map((one) => one.offXMm)),
    offYMm: Math.max(...travelling.map((one) => one.offYMm)),
    highZMm: Math.max(...travelling.map((one) => one.highMm[2])),
  }
}

/**
 * A box that stood on the scale with what is built in has that mass, where the items can make it; where they cannot, one of the two is
 * wrong, and the greater end of both counts when it is lifted, the lesser when the wind blows.
 */
function weighed(centre: Worked<MassCentre>, weighedKg: number | null, more: readonly MassItem[] = []): Worked<MassCentre> {
  if (weighedKg === null) return centre
  const extra = (end: 'low' | 'high'): number => more.reduce((sum, one) => sum + one.massKg[end], 0)
  const scale = { low: weighedKg + extra('low'), high: weighedKg + extra('high') }
  const { massKg } = centre.value
  const agrees = scale.low <= massKg.high && scale.high >= massKg.low
  const low = agrees ? scale.low : Math.min(scale.low, massKg.low)
  const high = agrees ? scale.high : Math.max(scale.high, massKg.high)
  return {
    value: {
      ...centre.value,
      massKg: { low, high, basis: agrees ? 'the scale' : 'the scale and the items, which differ', told: agrees },
    },
    steps: centre.steps,
  }
}

/** Height of the box as it travels: seats of a snow frame and a second roof stay on it. */
export const travelM = ({ body, frame, air }: Pick<Setting, 'body' | 'frame' | 'air'>): number =>
  heightM(body) + Math.max((frame?.seatsOverMm ?? 0) / 1000, air?.secondRoof === true ? amount('second-roof-up') : 0)

/** As surveyed, else as the box that stands was told: weighed, or its tare and fit-out together. */
function onScaleKg(job: HaulJob, body: BoxBody): number | null {
  if (body.weighedKg !== null) return body.weighedKg
  const built = job.boxes.length === 1 ? job.builtBody : null
  if (built?.weighedKg != null) return built.weighedKg
  return built?.tareKg != null && built.fitOutKg != null ? built.tareKg + built.fitOutKg : null
}

/** Does the scale contradict the items? */
export const scaleDiffers = (setting: Setting): boolean => setting.fitted.value.massKg.basis.includes('differ')

/** The fittings and how far the centre may lie off their middle: beyond them nothing hangs or stands any more. */
export function fourOf(setting: Setting): FourPoints {
  const { lengthCentresMm: s, widthCentresMm: p } = setting.body.fittings
  return {
    lengthM: s / 1000,
    widthM: p / 1000,
    offLengthM: Math.min(setting.offXMm, s / 2) / 1000,
    offWidthM: Math.min(setting.offYMm, p / 2) / 1000,
  }
}

export const lengthM = (body: BoxBody): number => body.outsideMm[0] / 1000
export const widthM = (body: BoxBody): number => body.outsideMm[1] / 1000
export const heightM = (body: BoxBody): number => body.outsideMm[2] / 1000
