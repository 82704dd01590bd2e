import type { HaulDesign } from '../job/index.ts'
import { judgeLower, judgeUpper, put, source, tan, type Verdict, worst } from '../kernel/index.ts'
import { CAUTION, kg, kN, type Noted, noted, putKN, shown, WHO } from './finding.ts'
import { tipShareFrac } from './lashing.ts'
import type { SecuringPlan } from './result.ts'
import { securingPlan } from './securing.ts'
import { type Setting, travelM, widthM } from './setting.ts'
import { amount, figure, line } from './shelf.ts'
import { linesSaid, type OverheadLine } from './site.ts'

/** On the truck and on the way. */
export function roadFindings(
  setting: Setting,
  design: HaulDesign,
): { readonly noted: readonly Noted[]; readonly securing: SecuringPlan; readonly heightOnDeckM: number } {
  const securing = securingPlan(setting, design.lashings)
  const heightOnDeckM = design.deckHeightM + travelM(setting)
  return {
    noted: [
      lashing(setting, design, securing),
      tipping(setting),
      axle(setting),
      routeHeight(setting, design, heightOnDeckM),
      wayWidth(setting),
      wayGrade(setting),
      overhead(setting, heightOnDeckM),
    ],
    securing: securing.value,
    heightOnDeckM,
  }
}

function lashing(setting: Setting, design: HaulDesign, plan: ReturnType<typeof securingPlan>): Noted {
  const { value, steps } = plan
  const asked = setting.rules.build.securing
  const count = design.lashings.reduce((sum, one) => sum + one.count, 0)
  const words = design.lashings.map((one) => `${one.count} × ${one.kind}, ${one.over}`).join('; ')
  const corners = design.lashings.some((one) => one.over === 'over the top') || count >= 4
  const enough =
    value.countedN === null || value.neededN === null
      ? 'holds'
      : count === 0
        ? 'fails'
        : judgeLower(value.countedN, value.neededN)
  const byLength: Verdict = value.byLengthCount === null || count >= value.byLengthCount ? 'holds' : 'fails'
  const across = shown(amount('lock-play-across'), 'mm')
  const up = shown(amount('lock-play-up'), 'mm')
  return noted({
    code: 'haul/lashing',
    subject: setting.body.box,
    verdict: worst([enough, byLength, corners ? 'holds' : 'fails']),
    basis: 'code',
    said:
      value.method === 'locks'
        ? `Four locks hold its four bottom fittings, each closed and seen; play of at most ${across} across and ${up} up. They take ${kN(value.forwardN)} forward, ${kN(value.rearN)} rearward, ${kN(value.sideN)} sideways.`
        : `${words === '' ? 'Nothing' : words}: counts ${kN(value.countedN ?? 0)} of ${kN(value.neededN ?? 0)} needed${value.byLengthCount === null ? '' : `; its length asks for ${value.byLengthCount}, ${count} are there`}. All four bottom fittings on the deck and each held, front and rear apart. Forces: ${kN(value.forwardN)} forward, ${kN(value.rearN)} rearward, ${kN(value.sideN)} sideways.`,
    title: `${setting.body.box} held on the truck`,
    steps,
    ...(value.countedN === null || value.neededN === null
      ? {}
      : {
          demand: putKN('counted', value.countedN),
          limit: putKN('needed', value.neededN),
          relation: '≥' as const,
          rests: asked.rests,
        }),
    decides: WHO.carrier,
    notes: ['Everything inside is held to the same shares of its own weight: see the strut and its nuts.'],
  })
}

function tipping(setting: Setting): Noted {
  const asked = setting.rules.build.securing
  const armM = widthM(setting.body) / 2 - setting.offYMm / 1000
  const heightOfM = setting.highZMm / 1000
  const share = tipShareFrac({ armM, heightM: heightOfM, cz: 1 })
  return noted({
    code: 'haul/tipping',
    subject: setting.body.box,
    verdict: judgeLower(share, asked.value.sideTipG),
    basis: 'code',
    said: `Pushed sideways it stands by itself up to ${shown(share * 100, '%')} of its weight; ${shown(asked.value.sideTipG * 100, '%')} is asked.`,
    title: `Tipping of ${setting.body.box} on the deck`,
    steps: [
      line(
        'share',
        '(b/2 − e)/z, centre at its highest',
        [
          ['b/2 − e', armM, 'm'],
          ['z', heightOfM, 'm'],
        ],
        share,
        '',
      ),
      line('asked', 'sideways, tipping', [], asked.value.sideTipG, '', asked.rests),
    ],
    demand: put('share', share, ''),
    limit: put('asked', asked.value.sideTipG, ''),
    relation: '≥',
    rests: asked.rests,
    decides: WHO.carrier,
  })
}

function axle(setting: Setting): Noted {
  const group = setting.rules.build.axleGroupKg
  const own = figure('truck-own-on-tandem')
  const wholeKg = setting.heavyKg + own.value
  const inside = wholeKg <= group.value.tandem
  return noted({
    code: 'haul/axle',
    subject: setting.body.box,
    verdict: inside ? judgeUpper(wholeKg, group.value.tandem) : 'unknown',
    basis: 'code',
    said: inside
      ? `Even with all of it on one tandem beside ${kg(own.value)} of the truck’s own the group carries ${kg(wholeKg)} of ${kg(group.value.tandem)}.`
      : `All of it on one tandem beside ${kg(own.value)} of the truck’s own would be ${kg(wholeKg)}, over ${kg(group.value.tandem)}: where it stands on the deck decides, and the carrier can tell. Share of the axle: mass · distance behind the kingpin / distance kingpin to axle.`,
    title: `Axle load under ${setting.body.box}`,
    steps: [
      line(
        'm axle',
        'm + own: no share can be greater',
        [
          ['m', setting.heavyKg, 'kg'],
          ['own', own.value, 'kg'],
        ],
        wholeKg,
        'kg',
        own.rests,
      ),
      line('m most', 'tandem', [], group.value.tandem, 'kg', group.rests),
    ],
    demand: put('m axle', wholeKg, 'kg'),
    limit: put('m most', group.value.tandem, 'kg'),
    rests: group.rests,
    decides: WHO.carrier,
  })
}

function routeHeight(setting: Setting, design: HaulDesign, highM: number): Noted {
  const limit = setting.rules.build.routeHeightM
  const reserve = figure('route-reserve')
  const verdict: Verdict = highM > limit.value + EXACT ? 'fails' : highM > limit.value - reserve.value + EXACT ? 'tight' : 'holds'
  return noted({
    code: 'haul/route-height',
    subject: setting.body.box,
    verdict,
    basis: 'code',
    said: `On a deck ${shown(design.deckHeightM, 'm')} high it reaches ${shown(highM, 'm')}; the usual limit is ${shown(limit.value, 'm')}. A wire or bridge on the way may be lower.`,
    title: `Height of ${setting.body.box} on the road`,
    steps: [
      line(
        'h',
        'deck + box',
        [
          ['deck', design.deckHeightM, 'm'],
          [setting.frame === null ? 'box' : 'box with seats', travelM(setting), 'm'],
        ],
        highM,
        'm',
        source('table decks', 'common practice'),
      ),
    ],
    demand: put('h', highM, 'm'),
    limit: put('h most', limit.value, 'm'),
    tight: `${reserve.value * 1000} mm`,
    rests: limit.rests,
    decides: WHO.route,
  })
}

/** Metres that were added up differ in their last bits. */
const EXACT = 1e-9

function wayWidth(setting: Setting): Noted {
  const needed = figure('way-width')
  const told = setting.job.yard.access.widthM
  return noted({
    code: 'haul/way-width',
    subject: setting.body.box,
    verdict: told === null ? 'unknown' : judgeLower(told, needed.value),
    basis: 'house',
    said:
      told === null
        ? `A truck with a box needs ${shown(needed.value, 'm')} clear; nobody has said how wide the way is. Whoever surveys it can tell.`
        : `The way is ${shown(told, 'm')} wide; a truck with a box needs ${shown(needed.value, 'm')}.`,
    title: `Width of the way to ${setting.body.box}`,
    steps: [
      line('way', 'as told', [], told ?? 'not told', told === null ? '' : 'm', source('the job document', 'told')),
      line('needed', 'delivery truck', [], needed.value, 'm', needed.rests),
    ],
    ...(told === null ? {} : { demand: put('way', told, 'm') }),
    limit: put('needed', needed.value, 'm'),
    relation: '≥',
    rests: needed.rests,
    decides: WHO.carrier,
  })
}

function wayGrade(setting: Setting): Noted {
  const told = setting.job.yard.access.roadGradeFrac
  const most = figure('road-grade-most')
  const easy = tan((amount('way-grade-deg') * Math.PI) / 180)
  const verdict: Verdict = told === null || told > most.value ? 'unknown' : told > easy ? 'tight' : 'holds'
  return noted({
    code: 'haul/way-grade',
    subject: setting.body.box,
    verdict,
    basis: 'house',
    said:
      told === null
        ? 'How steep the road is nobody has said; whoever drives it can tell.'
        : `The road rises up to ${shown(told * 100, '%')}. ${verdict === 'holds' ? 'Tilt-beds set down on as much.' : 'Steeper than a bed may stand; the carrier says whether the truck climbs it loaded, and in which season.'}`,
    title: `Grade of the way to ${setting.body.box}`,
    steps: [
      line(
        'grade',
        'as told',
        [],
        told === null ? 'not told' : told * 100,
        told === null ? '' : '%',
        source('the job document', 'told'),
      ),
      line('easy', 'tan 5°', [], easy * 100, '%', figure('way-grade-deg').rests),
      line('most', 'loaded trucks', [], most.value * 100, '%', most.rests),
    ],
    ...(told === null ? {} : { demand: put('grade', told * 100, '%') }),
    limit: put('most', most.value * 100, '%'),
    tight: 'from 5° on',
    rests: most.rests,
    decides: WHO.carrier,
  })
}

interface UnderLine {
  readonly verdict: Verdict
  readonly words: string
  readonly gapM: number | null
}

function underLine(of: OverheadLine, travelM: number): UnderLine {
  const keep = amount('line-clearance')
  if (of.kV === null) return { verdict: 'unknown', words: `“${of.words}”: its voltage is not said.`, gapM: null }
  if (of.kV > amount('line-clearance-to'))
    return { verdict: 'unknown', words: `“${of.words}”: above 50 kV its owner names the distance.`, gapM: null }
  if (of.besideM !== null) {
    const near = of.besideM < amount('line-survey')
    return {
      verdict: near ? 'unknown' : 'holds',
      words: `“${of.words}”: ${near ? `inside ${shown(amount('line-survey'), 'm')}, so the lift waits for a survey with its owner` : `outside ${shown(amount('line-survey'), 'm')}`}.`,
      gapM: of.besideM,
    }
  }
  if (of.heightM === null) return { verdict: 'unknown', words: `“${of.words}”: its height is not said.`, gapM: null }
  const gapM = of.heightM - travelM
  const verdict: Verdict = gapM >= keep ? 'holds' : gapM >= amount('line-transit') ? 'unknown' : 'fails'
  const more =
    verdict === 'unknown'
      ? `, more than the ${shown(amount('line-transit'), 'm')} for driving under it only; its owner decides`
      : ''
  return {
    verdict,
    words: `“${of.words}”: ${shown(gapM, 'm')} above the travelling box, ${shown(keep, 'm')} is kept${more}.`,
    gapM,
  }
}

function overhead(setting: Setting, travelM: number): Noted {
  const { overheadLine } = setting.job.yard.access
  const keep = figure('line-clearance')
  const lines = overheadLine === null ? [] : linesSaid(overheadLine).map((one) => underLine(one, travelM))
  const raised = `Unloading a tilt-bed takes ${shown(amount('unload-overhead-low'), 'm')} to ${shown(amount('unload-overhead-high'), 'm')} of height.`
  return noted({
    code: 'haul/overhead-line',
    subject: setting.body.box,
    verdict: overheadLine === null ? 'unknown' : worst(['holds', ...lines.map((one) => one.verdict)]),
    basis: 'code',
    said:
      overheadLine === null
        ? 'Whether lines cross the way or hang over the place nobody has said; whoever walks it can tell.'
        : lines.length === 0
          ? `No line is said to be there (“${overheadLine}”). ${raised}`
          : `${lines.map((one) => one.words).join(' ')} ${raised}`,
    title: `Lines over the way to ${setting.body.box}`,
    steps: [
      line('said', 'as told', [], overheadLine ?? 'not told', '', source('the job document', 'told')),
      line('h', 'deck + box', [], travelM, 'm'),
      ...lines.map((one) => line('gap', one.words, [], one.gapM ?? 'not known', one.gapM === null ? '' : 'm', keep.rests)),
    ],
    rests: keep.rests,
    decides: WHO.line,
    caution: CAUTION.lines,
  })
}
