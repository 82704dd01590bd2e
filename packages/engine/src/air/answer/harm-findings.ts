import { put, type Row, source, worst } from '../../kernel/index.ts'
import type { AirEnd, AirYear, SteelLoss } from '../result.ts'
import { amount, figure, rowsOf, sourceOf } from './figures.ts'
import { between, CAUTION, hours, line, type Noted, noted, tenths, WHO, whole } from './finding.ts'
import { settling, steelLoss } from './harm.ts'
import type { Remedies } from './mends.ts'
import { type AirSetting, apart, atBoth, countedWords, eachWords, judgeMost, worseEnd } from './setting.ts'

/** What a year of it does: mould on the floor, rust on bare steel. */
export function harmFindings(setting: AirSetting, mends: Remedies, corrosivity: string | null): readonly Noted[] {
  return [...mould(setting, mends), corrosion(setting, mends, corrosivity)]
}

const yearAt = (setting: AirSetting, end: AirEnd): AirYear => setting.counted[end].year
function mould(setting: AirSetting, mends: Remedies): readonly Noted[] {
  const of = (year: AirYear): number => year.mould?.mostRatio ?? Number.NaN
  const [tight, leaky] = [of(yearAt(setting, 'tight')), of(yearAt(setting, 'leaky'))]
  if (Number.isNaN(tight) || Number.isNaN(leaky)) return []
  const [none, seen] = [amount('mould-none'), amount('mould-seen')]
  const verdict = atBoth(setting, (year) => judgeMost(of(year), seen, seen - none))
  const end = worseEnd(setting, of)
  return [
    noted({
      code: 'air/mould',
      subject: setting.box,
      verdict,
      basis: 'house',
      said: `Mould on the plywood of the floor comes to an index of ${between(tight, leaky, tenths)} in ${countedWords(setting)}, on the scale from 0 to 6: from ${whole(none)} it begins, from ${whole(seen)} it is seen.${apart(verdict)}`,
      title: `Mould on the floor of ${setting.box}`,
      steps: (['tight', 'leaky'] as const).map((e) =>
        line(
          `M ${e}`,
          'hour by hour: grows above the critical humidity of its temperature, falls slowly when dry',
          [[`at the end of ${countedWords(setting)}`, yearAt(setting, e).mould?.endRatio ?? Number.NaN, '']],
          of(yearAt(setting, e)),
          '',
          source('Hukka & Viitanen 1999, Ojanen et al. 2010, class sensitive (table mould-classes)', 'memory'),
        ),
      ),
      notes: [
        'The floor starts the year without mould. When dry it falls a tenth as fast as on pine: the end of the published range that forgives least.',
      ],
      judged: {
        ...{ demand: put('M', of(yearAt(setting, end)), ''), relation: '≤', limit: put('M seen', seen, '') },
        ...{ tight: `from ${whole(none)}`, rests: figure('mould-seen').rests },
      },
      assumed: setting.assumed,
      mends: mends.drier,
      decides: WHO.shop,
      caution: CAUTION.mould,
    }),
  ]
}

const RANKED = rowsOf('corrosivity').map((r) => String(r.category))
const rank = (category: string): number => RANKED.indexOf(category)
/** Zinc on strut and enclosures lasts to here, and wears thin in the next. */
const LASTS = 'C3'

/** Rust: the class inside against what galvanised strut and enclosures stand, at both ends of what settles. */
function corrosion(setting: AirSetting, mends: Remedies, corrosivity: string | null): Noted {
  const settles = settling(corrosivity)
  const told = corrosivity !== null && settles.told !== 'not told'
  const lossAt = (year: AirYear, most: boolean) => (most ? year.steelInside.highCategory : year.steelInside.lowCategory)
  const judged = (category: string) => judgeMost(rank(category), rank(LASTS) + 1, 1)
  // Clean air is the kindest reading at the tight end, dirty air the hardest at the leaky one.
  const asOutside = atBoth(setting, (year, end) => judged(lossAt(year, end === 'leaky' || told)))
  const verdict = asOutside === 'fails' ? 'unknown' : asOutside
  const share = verdict === 'unknown' ? shareThatFails(setting, settles) : null
  const [tight, leaky] = [yearAt(setting, 'tight'), yearAt(setting, 'leaky')]
  const words = (loss: SteelLoss): string => between(loss.lowUmPerYear, loss.highUmPerYear, (v) => `${tenths(v)} µm`)
  const categories = [...new Set([tight.steelInside.lowCategory, leaky.steelInside.highCategory])].join(' to ')
  const wetter = Math.max(tight.wetnessInside.hoursH, leaky.wetnessInside.hoursH)
  const inside = [...new Set([tight.wetnessInside.class, leaky.wetnessInside.class])].map(tau).join(' to ')
  const worse = wetter > leaky.wetnessOutside.hoursH
  return noted({
    code: 'air/corrosion',
    subject: setting.box,
    verdict: worse && verdict === 'holds' ? worst([verdict, 'tight']) : verdict,
    basis: 'house',
    said: `Bare steel loses ${words({ ...tight.steelInside, highUmPerYear: leaky.steelInside.highUmPerYear })} in its first year inside (${categories}) if as much settles there as outside, ${words(leaky.steelOutside)} outside. Inside it is damp and above freezing for ${between(tight.wetnessInside.hoursH, leaky.wetnessInside.hoursH, hours)} ${eachWords(setting)} (${inside}), outside for ${hours(leaky.wetnessOutside.hoursH)} (${tau(leaky.wetnessOutside.class)}).${worse ? ' A box that is damper than its yard rusts faster than the yard.' : ''}${share === null ? apart(verdict) : shareWords(share)}`,
    title: `Rust in ${setting.box}`,
    steps: (['tight', 'leaky'] as const).flatMap((end) =>
      (['low', 'high'] as const).map((dirt) =>
        line(
          `r ${end} ${dirt}`,
          '1.77·Pd^0.52·exp(0.020·RH + f) + 0.102·Sd^0.62·exp(0.033·RH + 0.040·T)',
          [
            ['Pd', Number(settles[`so2_${dirt}`]), 'mg/m² a day'],
            ['Sd', Number(settles[`chloride_${dirt}`]), 'mg/m² a day'],
          ],
          yearAt(setting, end).steelInside[dirt === 'low' ? 'lowUmPerYear' : 'highUmPerYear'],
          'µm',
          source('ISO 9223:2012 eq. 1, what settles by table air-settling', 'memory'),
        ),
      ),
    ),
    notes: [
      'What settles inside is taken as outside: the most it can be. A shut box lets less of it in; no published share says how much less.',
      ...(setting.standing === null ? [] : ['The loss is at the rate of a whole year of such months.']),
    ],
    judged: {
      ...{ demand: put('category', leaky.steelInside.highCategory), relation: '≤', limit: put('zinc lasts to', LASTS) },
      ...{ tight: 'the next category', rests: sourceOf('corrosivity', rowsOf('corrosivity')[rank(LASTS)]!) },
    },
    assumed: [...setting.assumed, ...(told ? [] : ['facts.site.corrosivity'])],
    mends: mends.drier,
    decides: WHO.shop,
  })
}

/** Least share of what settles outside at which zinc no longer lasts inside, at either end. By halving: more that settles eats more. */
function shareThatFails(setting: AirSetting, settles: Row): number {
  const ofEnd = (end: AirEnd): number => {
    const { airC, relativeFrac } = setting.runs.ends[end].year.series
    const within = relativeFrac.map((frac) => Math.min(1, frac))
    const fails = (share: number) => rank(steelLoss(airC, within, settles, share).highCategory) > rank(LASTS) + 1
    let [holds, at] = [0, 1]
    for (let n = 0; n < SHARE_HALVINGS; n += 1) {
      const middle = (holds + at) / 2
      if (fails(middle)) at = middle
      else holds = middle
    }
    return at
  }
  return Math.min(ofEnd('tight'), ofEnd('leaky'))
}
/** To a thousandth. */
const SHARE_HALVINGS = 10

const shareWords = (share: number): string =>
  ` That is more than zinc stands; how much of the salt and sulphur outside settles inside nobody has published. From ${whole(Math.ceil(share * 100))} % of it on zinc does not last: hang a plate of bare steel inside for a year, or build with stainless.`

/** τ3 of `tau3`. */
const tau = (name: string): string => `τ${name.slice(3)}`
