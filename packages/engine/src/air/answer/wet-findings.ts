import { judgeEnds, put, type Step, type Verdict, worst } from '../../kernel/index.ts'
import { pressureAtPa } from '../../weather/index.ts'
import type { AirEnd, AirYear, FaceWet } from '../result.ts'
import { ON_GEAR_KG_PER_M2 } from './counts.ts'
import { amount, figure } from './figures.ts'
import { between, CAUTION, grams, hours, line, litres, type Noted, noted, RUN, tenths, WHO, whole } from './finding.ts'
import { depositByHand, FACE_WORDS } from './hand.ts'
import { whenAt } from './hours.ts'
import type { Remedies } from './mends.ts'
import { type AirSetting, apart, atBoth, countedWords, eachWords, judgeMost, worseEnd } from './setting.ts'

/** Frost and water on the roof, what falls from it, dew on the gear, and damp air. */
export function wetFindings(setting: AirSetting, mends: Remedies): readonly Noted[] {
  return [roofFrost(setting, mends), drip(setting, mends), dewOnGear(setting, mends), humid(setting, mends)]
}

const pressurePa = (setting: AirSetting, h: number): number =>
  setting.runs.weather.columns.pressurePa?.[h] ?? pressureAtPa(setting.runs.weather.place.elevationM)

const yearAt = (setting: AirSetting, end: AirEnd): AirYear => setting.counted[end].year
const both = (setting: AirSetting, of: (year: AirYear) => number, words: (value: number) => string): string =>
  between(of(yearAt(setting, 'tight')), of(yearAt(setting, 'leaky')), words)
const roofOf = (year: AirYear): FaceWet => year.counts.faces.find((f) => f.side === 'roof') as FaceWet
const eachEnd = (setting: AirSetting, step: (year: AirYear, end: AirEnd) => Step): readonly Step[] =>
  (['tight', 'leaky'] as const).map((end) => step(yearAt(setting, end), end))

type ColderSky = NonNullable<AirYear['colderSky']>

/** At both ends, and at either under the colder of two skies where that was run: one that differs leaves it unknown. */
function underBothSkies(setting: AirSetting, of: (year: AirYear) => Verdict, sky: (of: ColderSky) => Verdict): Verdict {
  return atBoth(setting, (year) => (year.colderSky === null ? of(year) : judgeEnds(of(year), sky(year.colderSky))))
}

function skyWords(setting: AirSetting, words: (sky: ColderSky) => string): string {
  const { colderSky } = yearAt(setting, 'tight')
  return colderSky === null
    ? ''
    : ` ${setting.runs.used.from === 'made' ? 'With a tenth less cloud than was made, and under' : 'Under'} the colder of two published clear skies: ${words(colderSky)}.`
}

/** Most that hangs under the roof: tight from the warning, fails at the event of published stages. */
function roofFrost(setting: AirSetting, mends: Remedies): Noted {
  const [warning, event] = [amount('roof-warning'), amount('roof-event')]
  const judged = (g: number) => judgeMost(g, event, event - warning)
  // Strips of bare rail are no roof: what hangs there warns, what falls from it is judged where it lands.
  const rails = (year: AirYear): Verdict => (roofOf(year).bareMostGPerM2 >= warning ? 'tight' : 'holds')
  const verdict = underBothSkies(
    setting,
    (year) => worst([judged(roofOf(year).mostGPerM2), rails(year)]),
    (sky) => judged(sky.roofMostGPerM2),
  )
  const end = worseEnd(setting, (year) => roofOf(year).mostGPerM2)
  const year = yearAt(setting, end)
  const roof = roofOf(year)
  const others = year.counts.faces
    .filter((f) => f.side !== 'roof' && f.wetH + f.frostH > 0)
    .sort((a, b) => b.mostGPerM2 - a.mostGPerM2)
    .slice(0, 2)
    .map((f) => `${FACE_WORDS[f.side]} ${hours(f.wetH)} wet and ${hours(f.frostH)} frosted, at most ${grams(f.mostGPerM2)}`)
  const bare = Math.max(...(['tight', 'leaky'] as const).map((e) => roofOf(yearAt(setting, e)).bareMostGPerM2))
  const bareWords =
    bare < 0.5
      ? ''
      : ` Its bare rails, where no foam covers them, carry up to ${grams(bare)}${bare >= warning ? `: from ${grams(warning)} they may drip` : ''}.`
  const night = year.worstNight
  return noted({
    code: 'air/roof-frost',
    subject: setting.box,
    verdict,
    basis: 'physics',
    said:
      roof.mostGPerM2 < 0.5
        ? `The underside of the roof stays dry ${setting.standing === null ? 'all year' : 'in its months here'} at both ends.${bareWords}${others.length === 0 ? '' : ` Elsewhere: ${others.join('; ')}.`}`
        : `The underside of the roof is frosted for ${both(setting, (y) => roofOf(y).frostH, hours)} of ${countedWords(setting)} and wet for ${both(setting, (y) => roofOf(y).wetH, hours)}; at most ${both(setting, (y) => roofOf(y).mostGPerM2, grams)} hang there, on ${whenAt(setting.runs.weather, roof.mostAtH + 1)}. From ${grams(warning)} it may drip, from ${grams(event)} drops fall.${bareWords}${skyWords(setting, (sky) => grams(sky.roofMostGPerM2))}${others.length === 0 ? '' : ` Elsewhere: ${others.join('; ')}.`}${apart(verdict)}`,
    title: `Frost and water under the roof of ${setting.box}`,
    steps: [
      ...eachEnd(setting, (y, e) =>
        line(
          `m ${e}`,
          'most that hung under the roof at once',
          [
            ['frosted', roofOf(y).frostH, 'h'],
            ['wet', roofOf(y).wetH, 'h'],
            ['nights with frost', roofOf(y).frostNightsCount, ''],
          ],
          roofOf(y).mostGPerM2,
          'g/m²',
          RUN,
        ),
      ),
      ...(night === null
        ? []
        : night.steps.map((s) => line(s.said, `the ${night.what}, ${night.when}`, [], s.value, s.unit, RUN))),
      line('m warning', 'from here on it may drip from a flat underside', [], warning, 'g/m²', figure('roof-warning').rests),
    ],
    crossCheck: night === null ? [] : depositByHand(setting.runs.ends[end].year, night.atH, pressurePa(setting, night.atH)),
    judged: {
      ...{ demand: put('m', roof.mostGPerM2, 'g/m²'), relation: '≤', limit: put('m event', event, 'g/m²') },
      ...{ tight: `from ${whole(warning)} g/m²`, rests: figure('roof-event').rests },
    },
    assumed: setting.assumed,
    mends: mends.drier,
    decides: WHO.shop,
    caution: CAUTION.roof,
  })
}

/** Water that falls on gear without a hood fails; on the floor it is counted. So much that strut or a bolt may let it go over such gear is tight. */
function drip(setting: AirSetting, mends: Remedies): Noted {
  const warning = amount('roof-warning')
  const open = setting.runs.ends.tight.model.below.filter((b) => !b.hooded)
  const judged = (kg: number, roofG: number): Verdict =>
    kg > 0 ? 'fails' : open.length > 0 && roofG >= warning ? 'tight' : 'holds'
  const hangs = (year: AirYear): number => Math.max(roofOf(year).mostGPerM2, roofOf(year).bareMostGPerM2)
  const verdict = underBothSkies(
    setting,
    (year) => judged(year.counts.fellOnGearKg, hangs(year)),
    (sky) => judged(sky.fellOnGearKg, sky.roofMostGPerM2),
  )
  const most = Math.max(hangs(yearAt(setting, 'tight')), hangs(yearAt(setting, 'leaky')))
  const mayLetGo =
    verdict === 'tight' && most >= warning
      ? ` Up to ${grams(most)} hang over gear that no hood stands over: from ${grams(warning)} strut, bolts and edges may let drops go.`
      : ''
  const end = worseEnd(setting, (year) => year.counts.fellOnGearKg)
  const year = yearAt(setting, end)
  const largest = [...year.drips].sort((a, b) => unhooded(b) - unhooded(a) || b.fellKg - a.fellKg)[0]
  const things = [...new Set(year.drips.flatMap((e) => e.on.filter((o) => !o.hooded && o.landsKg > 0).map((o) => o.id)))]
  const fell = both(setting, (y) => y.counts.fellKg, litres)
  const dripSky = skyWords(setting, (sky) => `${litres(sky.fellKg)}, ${litres(sky.fellOnGearKg)} of it on gear without a hood`)
  const times = both(setting, (y) => y.counts.dripEventsCount, whole)
  const on =
    year.counts.fellOnGearKg > 0
      ? `${both(setting, (y) => y.counts.fellOnGearKg, litres)} of it land on gear that no hood stands over: ${things.join(', ')}.`
      : year.counts.fellOnHoodsKg > 0
        ? `${both(setting, (y) => y.counts.fellOnHoodsKg, litres)} of it land on the hood and run off; the rest reaches the floor.`
        : 'It reaches the floor; nothing lies under it.'
  return noted({
    code: 'air/drip',
    subject: setting.box,
    verdict,
    basis: 'physics',
    said:
      year.counts.fellKg === 0 && yearAt(setting, end === 'tight' ? 'leaky' : 'tight').counts.fellKg === 0
        ? `No water falls from the roof or runs off a wall in ${countedWords(setting)}, at either end.${mayLetGo}${dripSky}${apart(verdict)}`
        : `${fell} fall or run off in ${countedWords(setting)}, in ${times} events${largest === undefined ? '' : `, the worst from ${FACE_WORDS[largest.side]} on ${largest.when}: ${litres(largest.fellKg)} in ${hours(largest.hoursCount)}`}. ${on}${mayLetGo}${dripSky}${apart(verdict)}`,
    title: `Water that falls in ${setting.box}`,
    steps: [
      ...eachEnd(setting, (y, e) =>
        line(`fell ${e}`, `all that fell or ran off in ${countedWords(setting)}`, [], y.counts.fellKg, 'kg', RUN),
      ),
      ...(largest?.on ?? []).map((o) =>
        line(
          `on ${o.id}`,
          'fell·A_below/A_floor, spread evenly',
          [
            ['fell', largest?.fellKg ?? 0, 'kg'],
            ['hood', o.hooded ? 'yes' : 'no', ''],
          ],
          o.landsKg,
          'kg',
        ),
      ),
      ...eachEnd(setting, (y, e) =>
        line(`on gear ${e}`, 'sum of what lands on gear without a hood', [], y.counts.fellOnGearKg, 'kg', RUN),
      ),
    ],
    notes: ['Strut, bolts and edges of ribs gather drops and let them fall earlier than a flat sheet does.'],
    judged: {
      ...{ demand: put('on gear', year.counts.fellOnGearKg, 'kg'), relation: '≤', limit: put('none', 0, 'kg') },
      ...{
        tight: `from ${whole(warning)} g/m² over gear without a hood`,
        rests: figure(verdict === 'tight' ? 'roof-warning' : 'roof-event').rests,
      },
    },
    assumed: setting.assumed,
    mends: [...mends.hood, ...mends.drier],
    decides: WHO.electrician,
    caution: CAUTION.wet,
  })
}

const unhooded = (event: { readonly on: readonly { readonly landsKg: number; readonly hooded: boolean }[] }): number =>
  event.on.filter((o) => !o.hooded).reduce((sum, o) => sum + o.landsKg, 0)

/** Any water that settles on the gear fails. */
function dewOnGear(setting: AirSetting, mends: Remedies): Noted {
  const seen = ON_GEAR_KG_PER_M2 * 1000
  const verdict = atBoth(setting, (year) => (year.counts.gearDewMostGPerM2 > seen ? 'fails' : 'holds'))
  const end = worseEnd(setting, (year) => year.counts.gearDewMostGPerM2)
  const { counts } = yearAt(setting, end)
  const h = counts.gearDewAtH
  const { series } = setting.runs.ends[end].year
  // A heater in the cabinets warms them alone: of the rest nothing is said.
  const heated = setting.runs.ends[end].model.heater?.at === 'cabinet'
  const gear = heated ? 'the heated cabinets' : 'the gear'
  return noted({
    code: 'air/dew-on-gear',
    subject: setting.box,
    verdict,
    basis: 'physics',
    said:
      counts.gearDewMostGPerM2 > seen
        ? `Water settles on ${gear} for ${both(setting, (y) => y.counts.gearDewH, hours)} of ${countedWords(setting)}, at most ${both(
            setting,
            (y) => y.counts.gearDewMostGPerM2,
            (g) => `${tenths(g)} g/m²`,
          )}, on ${whenAt(setting.runs.weather, h + 1)}: ${heated ? 'they are' : 'the gear is'} then colder than the damp air about ${heated ? 'them' : 'it'}.${apart(verdict)}`
        : `No water settles on ${gear} in ${countedWords(setting)}; ${heated ? 'they come' : 'it comes'} within ${both(
            setting,
            (y) => y.counts.gearLeastOverDewK,
            (k) => `${tenths(k)} K`,
          )} of the dew point.${heated ? ' Outlets, boxes and raceways outside them are as cold as the air and are not judged.' : ''}`,
    title: `Dew on the gear of ${setting.box}`,
    steps: [
      ...eachEnd(setting, (y, e) =>
        line(`m ${e}`, 'most on the gear at once', [['hours', y.counts.gearDewH, 'h']], y.counts.gearDewMostGPerM2, 'g/m²', RUN),
      ),
      line(
        'at the worst',
        'gear and air in that hour',
        [
          ['t_gear', series.gearC[h] as number, '°C'],
          ['t_air', series.airC[h] as number, '°C'],
          ['humidity', Math.min(1, series.relativeFrac[h] as number) * 100, '%'],
        ],
        whenAt(setting.runs.weather, h + 1),
        '',
        RUN,
      ),
    ],
    judged: {
      ...{ demand: put('m', counts.gearDewMostGPerM2, 'g/m²'), relation: '≤', limit: put('none to be seen', seen, 'g/m²') },
      ...{ tight: 'none', rests: figure('load-share').rests },
    },
    assumed: setting.assumed,
    mends: mends.drier,
    decides: WHO.maker,
    caution: CAUTION.wet,
  })
}

/** Means of a day and of a month against what indoor switchgear stands. */
function humid(setting: AirSetting, mends: Remedies): Noted {
  const [dayMost, monthMost, margin] = [amount('humid-day'), amount('humid-month'), amount('humid-margin')]
  const monthOf = (year: AirYear): number => year.atGear.monthMeanPct
  const heated = setting.runs.ends.tight.model.heater?.at === 'cabinet'
  const day = (year: AirYear) => judgeMost(year.atGear.dayMeanPct, dayMost, margin)
  const month = (year: AirYear) => judgeMost(monthOf(year), monthMost, margin)
  const verdict = atBoth(setting, (year) => worst([day(year), month(year)]))
  const end = worseEnd(setting, (year) => year.atGear.dayMeanPct)
  const year = yearAt(setting, end)
  const byMonth = worst([day(year), month(year)]) !== day(year)
  const percent = (value: number) => `${whole(value)} %`
  return noted({
    code: 'air/humid',
    subject: setting.box,
    verdict,
    basis: 'maker',
    said: `The dampest 24 h ${heated ? 'in the gear’s heated cabinet' : 'inside'} have ${both(setting, (y) => y.atGear.dayMeanPct, percent)} humidity, on ${whenAt(setting.runs.weather, year.atGear.dayMeanAtH)}, and the dampest month ${both(setting, monthOf, percent)}; indoor gear stands ${percent(dayMost)} over a day and ${percent(monthMost)} over a month. Above 80 % and above freezing: ${both(setting, (y) => y.wetnessInside.hoursH, hours)} ${eachWords(setting)} inside, ${hours(year.wetnessOutside.hoursH)} outside.${apart(verdict)}`,
    title: `Humidity of the air in ${setting.box}`,
    steps: [
      ...eachEnd(setting, (y, e) => line(`φ 24 h ${e}`, 'highest mean of 24 h in a row', [], y.atGear.dayMeanPct, '%', RUN)),
      ...eachEnd(setting, (y, e) => line(`φ month ${e}`, 'highest mean of a month', [], monthOf(y), '%', RUN)),
    ],
    judged: {
      demand: byMonth ? put('φ month', monthOf(year), '%') : put('φ 24 h', year.atGear.dayMeanPct, '%'),
      relation: '≤',
      limit: byMonth ? put('φ month max', monthMost, '%') : put('φ 24 h max', dayMost, '%'),
      ...{ tight: '5 points', rests: figure(byMonth ? 'humid-month' : 'humid-day').rests },
    },
    assumed: setting.assumed,
    mends: mends.drier,
    decides: WHO.maker,
    caution: CAUTION.wet,
  })
}
