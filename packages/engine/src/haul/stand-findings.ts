import { PADS } from '../box/index.ts'
import type { HaulDesign } from '../job/index.ts'
import { judgeEnds, judgeUpper, type Mend, put, source, type Verdict, worst } from '../kernel/index.ts'
import { CAUTION, kN, kPa, type Noted, noted, putKN, putKPa, shown, WHO } from './finding.ts'
import { padPlan, padSideMm, windTask } from './pads.ts'
import type { AnchorPlan, PadPlan, RoofSnow, WindEnd } from './result.ts'
import type { Setting } from './setting.ts'
import { amount, figure, line } from './shelf.ts'
import { frameFindings, frameTask } from './snow-frame/findings.ts'
import { leastFrame } from './snow-frame/search.ts'
import { ribsVerdict, snowOnRoof } from './snow-on-roof.ts'
import { speedOfPressure, tippingPa } from './wind.ts'
import { anchorsFor, windOnBox } from './wind-on-box.ts'

export interface Standing {
  readonly noted: readonly Noted[]
  readonly wind: { readonly low: WindEnd; readonly high: WindEnd } | null
  readonly anchors: AnchorPlan | null
  readonly snow: RoofSnow | null
  readonly pads: PadPlan
}

/** Where it stands: wind, anchors, snow, pads, level. */
export function standFindings(setting: Setting, design: HaulDesign): Standing {
  const wind = windOnBox(windTask(setting))
  const anchors = wind === null || design.anchors === null ? null : anchored(setting, design.anchors, wind.high)
  const snow = snowOnRoof({ yard: setting.job.yard, by: setting.rules.build.snowBy, body: setting.body, skin: setting.skin })
  const pads = padPlan(setting, design.pads)
  const held = anchors === null ? null : anchors.verdict
  return {
    noted: [
      sliding(setting, wind, held),
      overturning(setting, wind, held),
      ...(anchors === null ? [] : [anchors.noted]),
      ...(setting.frame === null || snow === null ? [roofSnow(setting, snow)] : []),
      ...(setting.frame === null ? [] : frameFindings(setting, setting.frame, wind)),
      bearing(setting, design, pads),
      level(setting, pads.value),
    ],
    wind: wind === null ? null : { low: wind.low, high: wind.high },
    anchors: anchors?.plan ?? null,
    snow: snow?.value ?? null,
    pads: pads.value,
  }
}

type Wind = ReturnType<typeof windOnBox>

const heldWords = (held: Verdict | null): string =>
  held === null ? '' : held === 'fails' ? 'Its anchors are too weak for that.' : 'Its anchors hold that.'

/** Readings of the wind that nobody ruled out, as paths. */
const unsaid = (setting: Setting): readonly string[] => {
  const { wind } = setting.job.yard
  return [
    ...(wind.pressureIs === null ? ['facts.site.wind.pressure-is'] : []),
    ...(wind.level === null ? ['facts.site.wind.level'] : []),
    ...(wind.pressureIs !== 'velocity pressure' && wind.coefficientRatio === null ? ['facts.site.wind.coefficient'] : []),
    ...(wind.heightM === null ? ['facts.site.wind.height'] : []),
  ]
}

const WIND_NOTES = [
  'Every reading of the told pressure that nobody ruled out is judged; it is not lowered to the height of the box.',
  'Lightest mass, centre at its worst. Snow on the roof is no help against sliding and is not counted.',
]

function noWind(setting: Setting, code: string, what: string): Noted {
  return noted({
    code,
    subject: setting.body.box,
    verdict: 'unknown',
    basis: 'code',
    said: `Whether the wind ${what} it cannot be told: no wind pressure is said. The local code or whoever builds there knows it.`,
    title: `Wind on ${setting.body.box}`,
    steps: [line('p', 'facts.site.wind.pressure', [], 'not told', '', source('the job document', 'told'))],
    decides: WHO.engineer,
  })
}

function sliding(setting: Setting, wind: Wind, held: Verdict | null): Noted {
  if (wind === null) return noWind(setting, 'haul/wind-sliding', 'slides')
  const alone = judgeEnds(judgeUpper(wind.low.slideN, wind.low.gripN), judgeUpper(wind.high.slideN, wind.high.gripN))
  return noted({
    code: 'haul/wind-sliding',
    subject: setting.body.box,
    verdict: held ?? alone,
    basis: 'code',
    said: `Wind on the long side pushes ${kN(wind.low.slideN)} to ${kN(wind.high.slideN)}, as the told pressure is read; friction of the lightest box holds ${kN(wind.low.gripN)} to ${kN(wind.high.gripN)}${windTask(setting).icy ? ' (icy pads)' : ''}. ${heldWords(held)}`.trim(),
    title: `Sliding of ${setting.body.box} in the wind`,
    steps: wind.steps,
    notes: WIND_NOTES,
    demand: putKN('S', wind.high.slideN),
    limit: putKN('R', wind.high.gripN),
    ...(held === null ? { rests: source(setting.rules.build.windBy, 'memory') } : {}),
    decides: WHO.engineer,
    assumed: unsaid(setting),
    mends: held === null && alone !== 'holds' && alone !== 'tight' ? anchorMends(setting, wind.high) : [],
  })
}

function overturning(setting: Setting, wind: Wind, held: Verdict | null): Noted {
  if (wind === null) return noWind(setting, 'haul/wind-overturning', 'tips')
  const { low, high } = wind
  const alone = judgeEnds(judgeUpper(low.overturnNm, low.rightNm), judgeUpper(high.overturnNm, high.rightNm))
  const [l, b, h] = setting.body.outsideMm.map((mm) => mm / 1000) as [number, number, number]
  const armM = b / 2 - setting.offYMm / 1000
  const tipPa = tippingPa({
    weightN: setting.lightKg * amount('gravity'),
    armM,
    netRatio: amount('net-coefficient'),
    lengthM: l,
    heightM: h,
  })
  const gust = speedOfPressure(tipPa, 1, 1)
  return noted({
    code: 'haul/wind-overturning',
    subject: setting.body.box,
    verdict: held ?? alone,
    basis: 'code',
    said: `Wind and suction of the roof turn with ${shown(low.overturnNm / 1000, 'kN·m')} to ${shown(high.overturnNm / 1000, 'kN·m')}; the share of its weight that counts holds ${shown(low.rightNm / 1000, 'kN·m')}. With no suction and its whole weight it tips in a gust of ${shown(gust, 'm/s')} at its own height; it slides long before. ${heldWords(held)}`.trim(),
    title: `Overturning of ${setting.body.box} in the wind`,
    steps: [
      ...wind.steps,
      line(
        'q tip',
        '2·W·(b/2 − e)/(c·L·h²)',
        [
          ['W', setting.lightKg * amount('gravity'), 'N'],
          ['b/2 − e', armM, 'm'],
        ],
        tipPa,
        'Pa',
      ),
      line('V tip', '√(q/0.613)', [], gust, 'm/s', source('ASCE 7-16, 26.10.2', 'read')),
    ],
    notes: WIND_NOTES,
    demand: put('Mo', high.overturnNm / 1000, 'kN·m'),
    limit: put('Mr', high.rightNm / 1000, 'kN·m'),
    ...(held === null ? { rests: source(setting.rules.build.windBy, 'memory') } : {}),
    decides: WHO.engineer,
    assumed: unsaid(setting),
    mends: held === null && alone !== 'holds' && alone !== 'tight' ? anchorMends(setting, high) : [],
  })
}

function anchorMends(setting: Setting, end: WindEnd): readonly Mend[] {
  const { plan } = anchorsFor(windTask(setting), end, 4)
  const eachKN = Math.ceil(Math.hypot(plan.tensionN, plan.shearN) / 1000)
  return [{ path: `haul.${setting.body.box}.anchors`, value: `4 of ${eachKN} kN`, words: `four anchors of ${eachKN} kN each` }]
}

function anchored(setting: Setting, design: NonNullable<HaulDesign['anchors']>, end: WindEnd) {
  const { plan, steps } = anchorsFor(windTask(setting), end, design.count)
  const neededN = Math.hypot(plan.tensionN, plan.shearN)
  const verdict = judgeUpper(neededN, design.eachN, 0)
  return {
    verdict,
    plan: { ...plan, eachN: design.eachN },
    noted: noted({
      code: 'haul/anchors',
      subject: setting.body.box,
      verdict,
      basis: 'code',
      said: `${design.count} anchors (${design.what}) of ${kN(design.eachN)} each; one must hold ${kN(neededN)}: ${kN(plan.tensionN)} up and ${kN(plan.shearN)} across. What the ground gives is proved by pulling each to that load.`,
      title: `Anchors of ${setting.body.box}`,
      steps,
      notes: [
        'Whole wind at the ultimate level against the counted share of the weight; no friction; an open door, or wind under a raised floor, lifts with the suction of the roof.',
      ],
      demand: putKN('R', neededN),
      limit: putKN('each', design.eachN),
      tight: 'none: rounded up',
      rests: source(setting.rules.build.windBy, 'memory'),
      decides: WHO.anchors,
      assumed: unsaid(setting),
      mends: verdict === 'fails' ? anchorMends(setting, end) : [],
    }),
  }
}

function roofSnow(setting: Setting, snow: ReturnType<typeof snowOnRoof>): Noted {
  if (snow === null)
    return noted({
      code: 'haul/roof-snow',
      subject: setting.body.box,
      verdict: 'unknown',
      basis: 'code',
      said: 'What snow lies on the roof cannot be told: no snow load of the ground is said. The local code or whoever builds there knows it.',
      title: `Snow on the roof of ${setting.body.box}`,
      steps: [line('s ground', 'facts.site.snow.ground-load', [], 'not told', '', source('the job document', 'told'))],
      decides: WHO.engineer,
      caution: CAUTION.roof,
    })
  const { value, steps } = snow
  const ribs = ribsVerdict(value)
  const frame = ribs === 'holds' || ribs === 'tight' ? null : leastFrame(frameTask(setting), null)
  const rail: Verdict =
    value.rail === null
      ? 'holds'
      : worst([judgeUpper(value.rail.stressPa, value.allowablePa), judgeUpper(value.rail.sagM, value.rail.sagLimitM)])
  const mpa = (pa: number): string => shown(pa / 1e6, 'N/mm²')
  return noted({
    code: 'haul/roof-snow',
    subject: setting.body.box,
    verdict: worst([ribs, rail]),
    basis: 'physics',
    said: `${kPa(value.groundPa)} on the ground make ${kPa(value.roofPa.low)}${value.roofPa.low === value.roofPa.high ? '' : ` to ${kPa(value.roofPa.high)}`} on the roof. Its ribs feel ${mpa(value.ribPa.low)} to ${mpa(value.ribPa.high)} of ${mpa(value.allowablePa)}, as far as they reach from rail to rail${value.rail === null ? '' : `; the rail over ${value.rail.opening} ${mpa(value.rail.stressPa)}, sagging ${shown(value.rail.sagM * 1000, 'mm')} of ${shown(value.rail.sagLimitM * 1000, 'mm')}`}. The patch test of a box’s roof is no rating for snow. ${ribs === 'holds' || ribs === 'tight' ? '' : `${frame === null ? 'No frame of these tubes and decks carries it: an engineer designs one' : 'A frame over it'}, or snow taken off in time; who takes it off is agreed beforehand.`}`.trim(),
    title: `Snow on the roof of ${setting.body.box}`,
    steps,
    notes: [
      'Drift against something taller, and anything that stands on the roof, comes on top.',
      'Snow on the roof is no help against sliding.',
    ],
    demand: put('σ', value.ribPa.high / 1e6, 'N/mm2'),
    limit: put('σ allowed', value.allowablePa / 1e6, 'N/mm2'),
    rests: figure('box-steel-yield').rests,
    decides: WHO.engineer,
    caution: CAUTION.roof,
    mends:
      frame === null
        ? []
        : [{ path: `haul.${setting.body.box}.snow-frame`, value: 'frame', words: 'a frame over the roof that carries the snow' }],
  })
}

function bearing(setting: Setting, design: HaulDesign, { value, steps }: ReturnType<typeof padPlan>): Noted {
  const { limitPa } = value
  const verdict = limitPa === null ? 'unknown' : judgeUpper(value.pressurePa, limitPa)
  const side = padSideMm(value.worstN, limitPa)
  const size = `${design.pads.lengthMm} × ${design.pads.widthMm} mm`
  return noted({
    code: 'haul/bearing',
    subject: setting.body.box,
    verdict,
    basis: 'physics',
    said: `${design.pads.count} pads of ${size} (${design.pads.what}): the worst corner stands with ${kN(value.worstN)}, ${kPa(value.pressurePa)} on the ground${limitPa === null ? '; what it bears nobody has said, and whoever tests it can tell' : ` of ${kPa(limitPa)}`}. Nothing bears in the middle of a short box; ${shown(PADS.leastAirMm, 'mm')} of air under the floor at least.`,
    title: `Pads under ${setting.body.box}`,
    steps,
    demand: putKPa('p', value.pressurePa),
    ...(limitPa === null ? {} : { limit: putKPa('p most', limitPa), rests: source('the job document', 'told') }),
    decides: WHO.ground,
    mends:
      verdict === 'fails'
        ? [
            {
              path: `haul.${setting.body.box}.pads`,
              value: `${design.pads.count} of ${side} x ${side} mm`,
              words: `pads of ${side} × ${side} mm`,
            },
          ]
        : [],
  })
}

function level(setting: Setting, pads: PadPlan): Noted {
  const slope = setting.job.yard.ground.slopeFrac
  const cross = figure('pad-crossfall')
  const most = figure('pad-packing-most')
  const verdict: Verdict =
    slope === null || pads.packingMm === null
      ? 'unknown'
      : slope <= cross.value
        ? 'holds'
        : judgeUpper(pads.packingMm, most.value)
  return noted({
    code: 'haul/level',
    subject: setting.body.box,
    verdict,
    basis: 'house',
    said:
      slope === null || pads.packingMm === null
        ? 'How the ground slopes nobody has said; whoever surveys it can tell.'
        : `The ground slopes ${shown(slope * 100, '%')}: ${slope <= cross.value ? 'level enough for four pads' : `the low end is packed by up to ${shown(pads.packingMm, 'mm')}, ${shown(most.value, 'mm')} at most without a foundation`}. No corner more than ${shown(amount('twist-most'), 'mm')} out of the plane of the others, or the doors bind.`,
    title: `Level of ${setting.body.box}`,
    steps: [
      line(
        'packing',
        'slope·L',
        [
          ['slope', slope ?? 'not told', ''],
          ['L', setting.body.outsideMm[0], 'mm'],
        ],
        pads.packingMm ?? 'not known',
        pads.packingMm === null ? '' : 'mm',
      ),
      line('cross-fall', 'of a level pad', [], cross.value * 100, '%', cross.rests),
      line('packing most', 'without a foundation', [], most.value, 'mm', most.rests),
    ],
    ...(pads.packingMm === null ? {} : { demand: put('packing', pads.packingMm, 'mm') }),
    limit: put('packing most', most.value, 'mm'),
    rests: most.rests,
    decides: WHO.ground,
  })
}
