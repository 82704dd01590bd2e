import { judgeEnds, judgeUpper, put, source, type Verdict, worst } from '../../kernel/index.ts'
import { combination } from '../combination.ts'
import { CAUTION, kg, kN, kPa, type Noted, noted, putKN, shown, WHO } from '../finding.ts'
import type { SnowFramePlan, WindEnd } from '../result.ts'
import type { Setting } from '../setting.ts'
import { amount, figure, line } from '../shelf.ts'
import { roofSnowPa } from '../snow-on-roof.ts'
import { deckOf } from './parts.ts'
import { loadPath } from './path.ts'
import { spacesOf } from './place.ts'
import { type Check, type FrameTask, frameWork } from './work.ts'

export const frameTask = (setting: Setting): FrameTask => ({
  yard: setting.job.yard,
  by: setting.rules.build.snowBy,
  body: setting.body,
  skin: setting.skin,
})

/** A frame over the roof: what the snow does to it, how the load goes down, how it is held down, what it is to carry and to set. */
export function frameFindings(setting: Setting, plan: SnowFramePlan, wind: { readonly high: WindEnd } | null): readonly Noted[] {
  const ground = setting.job.yard.snow.groundLoadPa
  return [...(ground === null ? [] : underSnow(setting, plan, ground)), heldDown(setting, plan, wind), carried(setting, plan)]
}

function underSnow(setting: Setting, plan: SnowFramePlan, groundPa: number): readonly Noted[] {
  const task = frameTask(setting)
  const box = setting.body.box
  const snow = roofSnowPa(groundPa, task.by)
  const [low, high] = [frameWork(task, plan.frame, snow.low), frameWork(task, plan.frame, snow.high)]
  if (low === null || high === null) return []
  const verdict = judgeEnds(low.verdict, high.verdict)
  const used = (c: Check): number => c.demand / c.limit
  const hardest = high.checks.toSorted((a, b) => used(b) - used(a))[0]!
  const said = (what: string): string => {
    const c = high.checks.find((one) => one.what === what)
    return c === undefined ? '' : `${shown(c.demand, words(c.unit))} of ${shown(c.limit, words(c.unit))}`
  }
  const { frame } = plan
  const path = loadPath(task, high)
  return [
    noted({
      code: 'haul/roof-snow',
      subject: box,
      verdict,
      basis: 'physics',
      said: `${kPa(groundPa)} on the ground make ${snow.low === snow.high ? '' : `${kPa(snow.low)} to `}${kPa(snow.high)} on the roof; a frame over it takes them off its sheet: ${frame.bearersAtMm.length} bearers of ${frame.section} across the box, ${shown(plan.spacingMm, 'mm')} apart on seats on the top side rails, deck ${frame.deck}. Bearers ${said('bearer')}, sagging ${said('bearer sag')}; deck ${said('deck')}, sagging ${said('deck sag')}. Most used: ${hardest.what}, ${shown(100 * used(hardest), '%')}. ${frame.triedCount === 0 ? '' : `The least of ${frame.triedCount} frames weighed, all there are of these tubes, decks and numbers.`}`.trim(),
      title: `Snow on the frame over ${box}`,
      steps: high.steps,
      notes: [
        'Flat deck, even load; a drift against something taller, and anything that stands on the frame, comes on top.',
        'Deck and bearers span freely; tubes count with their rolled corners taken off.',
        'No hole and no weld in the roof sheet: each seat is welded to the top face of its rail and notched over the edge of the sheet.',
      ],
      demand: put(hardest.what, hardest.demand, hardest.unit),
      limit: put('most', hardest.limit, hardest.unit),
      rests: figure('frame-yield').rests,
      decides: WHO.engineer,
      caution: CAUTION.roof,
    }),
    noted({
      code: 'haul/snow-frame-path',
      subject: box,
      verdict: path.verdict,
      basis: 'physics',
      said: `Each seat puts ${kN(high.seatN)} on its rail, each long side ${kN(high.sideN)} on its wall, each corner ${kN(path.cornerN)} on its post and pad. ${path.said}`,
      title: `The way of the snow load from the frame of ${box} to the ground`,
      steps: path.steps,
      notes: ['Only the four corners are counted as standing. Buckling of the sheet between its ribs is not followed.'],
      demand: putKN('V', path.cornerN),
      limit: putKN('post', amount('post-stacking')),
      rests: source('ISO 1496-1, stacking test', 'memory'),
      decides: WHO.engineer,
    }),
  ]
}

const words = (unit: Check['unit']): string => (unit === 'N/mm2' ? 'N/mm²' : 'mm')

/** Two bolts and the weld of a seat against wind that sucks at the deck and gets under it. */
function heldDown(setting: Setting, plan: SnowFramePlan, wind: { readonly high: WindEnd } | null): Noted {
  const box = setting.body.box
  const task = frameTask(setting)
  const mix = combination(setting.rules.build.windBy)
  const { spacingMm, overhangMm } = spacesOf(setting.body, plan.frame)
  const [suction, under, bolt] = [figure('frame-suction'), figure('internal-open-door'), figure('frame-bolt')]
  const areaM2 = (Math.max(spacingMm, spacingMm / 2 + overhangMm) * setting.body.outsideMm[1]) / 2e6
  const ownN = (plan.massKg.low * amount('gravity') * areaM2) / ((setting.body.outsideMm[0] * setting.body.outsideMm[1]) / 1e6)
  const share = combination(task.by).steel
  const boltsN = 2 * share * bolt.value
  const weldN = (share * amount('frame-weld-long') * amount('frame-weld-throat') * amount('frame-yield')) / Math.sqrt(3)
  const holdsN = Math.min(boltsN, weldN)
  const pullN =
    wind === null ? null : Math.max(0, mix.wind * wind.high.velocityPa * (suction.value + under.value) * areaM2 - mix.dead * ownN)
  const verdict: Verdict = pullN === null ? 'unknown' : judgeUpper(pullN, holdsN)
  return noted({
    code: 'haul/snow-frame-wind',
    subject: box,
    verdict,
    basis: 'code',
    said:
      pullN === null
        ? `Two M12 bolts and the weld of each seat hold ${kN(holdsN)}; whether the wind lifts the frame cannot be told: no wind pressure is said.`
        : `Without snow the wind lifts a seat with ${kN(pullN)}; its two M12 bolts and its weld hold ${kN(holdsN)}. The box itself is held by its anchors.`,
    title: `Wind under the snow frame of ${box}`,
    steps: [
      line(
        'T',
        'share·q·(c + c_i)·A − dead·own, not below 0',
        [
          ['share', mix.wind, ''],
          ['q', wind?.high.velocityPa ?? 'not told', 'Pa'],
          ['c', suction.value, ''],
          ['c_i', under.value, ''],
          ['A', areaM2, 'm2'],
          ['own', ownN, 'N'],
        ],
        pullN === null ? 'not known' : pullN / 1000,
        pullN === null ? '' : 'kN',
        suction.rests,
      ),
      line('bolts', '2·share·F', [['F', bolt.value, 'N']], boltsN / 1000, 'kN', bolt.rests),
      line(
        'weld',
        'share·ℓ·throat·fy/√3',
        [
          ['ℓ', amount('frame-weld-long'), 'mm'],
          ['throat', amount('frame-weld-throat'), 'mm'],
        ],
        weldN / 1000,
        'kN',
        figure('frame-weld-long').rests,
      ),
    ],
    ...(pullN === null ? {} : { demand: putKN('T', pullN) }),
    limit: putKN('seat', holdsN),
    rests: bolt.rests,
    decides: WHO.engineer,
  })
}

function carried(setting: Setting, plan: SnowFramePlan): Noted {
  const box = setting.body.box
  const deck = deckOf(plan.frame.deck)
  const { lengthMm, widthMm } = plan.deckSheets
  const sheetKg = (deck.kgPerM2 * lengthMm * widthMm) / 1e6
  const bearersKg =
    (plan.massKg.high -
      (1 + amount('frame-spread')) * ((deck.kgPerM2 * setting.body.outsideMm[0] * setting.body.outsideMm[1]) / 1e6)) /
    plan.bearers.length
  const heaviestKg = Math.max(sheetKg, bearersKg)
  const most = figure('frame-two-people')
  const held = judgeUpper(heaviestKg, most.value)
  return noted({
    code: 'haul/snow-frame-set',
    subject: box,
    verdict: worst([held === 'fails' ? 'tight' : held]),
    basis: 'house',
    said: `The frame is taken off to travel and goes as a load of its own, ${kg(plan.massKg.low)} to ${kg(plan.massKg.high)}, lashed apart from the box; only its seats stay, ${shown(plan.seatsOverMm, 'mm')} over the top fittings, and count in the height on the road. While it stands it is ${shown(plan.overMm, 'mm')} higher than the box. Its heaviest piece weighs ${kg(heaviestKg)}: ${held === 'fails' ? 'a hoist sets it' : 'two people lift it, from a scaffold'}. No top spreader fits while the frame is on.`,
    title: `Setting the snow frame of ${box}`,
    steps: [
      line('m deck', 'one sheet', [], sheetKg, 'kg', source('table snow-decks', 'memory')),
      line('m bearer', 'one tube', [], bearersKg, 'kg'),
      line('m most', 'two people', [], most.value, 'kg', most.rests),
    ],
    demand: put('m', heaviestKg, 'kg'),
    limit: put('m most', most.value, 'kg'),
    tight: 'from there on a hoist',
    rests: most.rests,
    decides: WHO.carrier,
    caution: CAUTION.frame,
  })
}
