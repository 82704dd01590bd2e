import type { Offer } from '../../job/index.ts'
import { type Finding, judgeEnds, judgeUpper, put, source, type Working } from '../../kernel/index.ts'
import { shown } from '../needs/index.ts'
import { found, line } from './finding.ts'
import { MEAN_MOST_FRAC, MONTH_DAYS } from './generator.ts'
import type { Found } from './offer-findings.ts'
import type { GeneratorSizing } from './result.ts'
import type { Held } from './sizes.ts'

const TIGHT_FRAC = 0.1

/** A set that the design rests on, for the stay or for the gap. */
export function setFindings(subject: string, offer: Offer, set: GeneratorSizing, held: Held, role: 'stay' | 'gap'): Found {
  const id = `${subject}/${offer.id}`
  const key = { subject, provenance: 'memory', workings: [id] } as const
  const findings: Finding[] = []
  const ends = (low: number, high: number) => (shown(low) === shown(high) ? shown(high) : `${shown(low)} to ${shown(high)}`)
  findings.push(
    found({
      ...key,
      code: 'supply/set-size',
      verdict: judgeEnds(
        judgeUpper(held.kW, set.availableKW.low, TIGHT_FRAC),
        judgeUpper(held.kW, set.availableKW.high, TIGHT_FRAC),
      ),
      basis: 'maker',
      confirm: true,
      said: `${offer.id}: ${shown(set.ratedKW)} kW on its plate, ${ends(set.availableKW.low, set.availableKW.high)} kW where it stands; ${shown(held.kW)} kW with ${held.basis}, ${shown(set.stagedKW)} kW as staged${set.sets > 1 ? '; one set runs, the other rests' : ''}.`,
      demand: put('P', held.kW, 'kW'),
      limit: put('P available', set.availableKW.low, 'kW'),
    }),
    found({
      ...key,
      code: 'supply/set-kva',
      verdict: judgeEnds(
        judgeUpper(held.kVA, set.availableKVA.low, TIGHT_FRAC),
        judgeUpper(held.kVA, set.availableKVA.high, TIGHT_FRAC),
      ),
      basis: 'maker',
      said: `${offer.id}: ${ends(set.availableKVA.low, set.availableKVA.high)} kVA from its alternator for ${shown(held.kVA)} kVA; the highest phase is at ${Math.round(set.onePhaseFrac * 100)} % of its own rating.`,
      demand: put('S', held.kVA, 'kVA'),
      limit: put('S available', set.availableKVA.low, 'kVA'),
    }),
    found({
      ...key,
      code: 'supply/set-phase',
      verdict: judgeUpper(set.onePhaseFrac, 1, TIGHT_FRAC),
      basis: 'maker',
      said: `${offer.id}: its highest phase carries ${Math.round(set.onePhaseFrac * 100)} % of what one phase gives.`,
      demand: put('I/I phase', set.onePhaseFrac, ''),
      limit: put('limit', 1, ''),
    }),
  )
  const light = set.meanFrac < set.meanLeastFrac
  findings.push(
    found({
      ...key,
      code: 'supply/set-mean-load',
      verdict: light || set.meanFrac > MEAN_MOST_FRAC ? 'tight' : 'holds',
      basis: 'maker',
      said: `${offer.id}: mean load ${shown(set.meanKW)} kW, ${shown(set.meanFrac * 100)} % of ${shown(set.ratedKW)} kW${light ? `: below 30 % a diesel fouls; a smaller set, or load added by hand` : set.meanFrac > MEAN_MOST_FRAC ? ': over the 70 % of prime duty' : ', between 30 and 70 %'}.`,
      demand: put('mean', set.meanFrac, ''),
      limit: put('least', set.meanLeastFrac, ''),
    }),
  )
  if (set.largestStart !== null) {
    const start = set.largestStart
    findings.push(
      found({
        ...key,
        code: 'supply/set-start-dip',
        verdict: start.verdict,
        basis: 'house',
        provenance: 'common practice',
        said: `${offer.id}: as ${start.plug} starts with ${ends(start.startKVA.low, start.startKVA.high)} kVA the volts dip ${ends(start.dipFrac.low * 100, start.dipFrac.high * 100)} %; ${Math.round(start.limitFrac * 100)} % is the usual limit here.`,
        demand: put('dip', start.dipFrac.high, ''),
        limit: put('limit', start.limitFrac, ''),
      }),
    )
  }
  if (offer.quietHours !== undefined) {
    findings.push(
      found({
        ...key,
        code: 'supply/quiet-hours',
        verdict: set.quietKept ? 'holds' : 'fails',
        basis: 'house',
        provenance: 'told',
        said: set.quietKept
          ? `${offer.id}: nothing is on in its quiet hours.`
          : `${offer.id} must be silent in its quiet hours, and ${shown(set.quietLoadKW)} kW are on then${role === 'gap' ? ': something else must feed them' : ''}.`,
      }),
    )
  }
  const working: Working = {
    id,
    title: `Set ${offer.id} against the load`,
    steps: [
      line(
        'P available',
        'P rated, less height and heat, both ends',
        [['P rated', set.ratedKW, 'kW']],
        `${ends(set.availableKW.low, set.availableKW.high)}`,
        'kW',
        'table generator-derate',
      ),
      line(
        'S available',
        'S rated, less height, heat and one-phase connection',
        [['S rated', set.ratedKVA, 'kVA']],
        `${ends(set.availableKVA.low, set.availableKVA.high)}`,
        'kVA',
        'table generator-derate',
      ),
      line('mean', 'mean of the quarter-hours of a full day', [], set.meanKW, 'kW'),
      ...(set.largestStart === null
        ? []
        : [
            line(
              'dip',
              'x/(1 + x), x = Xd′·S start/S set',
              [['S start', set.largestStart.startKVA.high, 'kVA']],
              set.largestStart.dipFrac.high,
              '',
              'table generator-react',
            ),
          ]),
      line(
        'fuel',
        `Σ of the chart over a full day × ${MONTH_DAYS} days, chart ±15 %`,
        [],
        `${Math.round(set.fuelLPerMonth.low)} to ${Math.round(set.fuelLPerMonth.high)}`,
        'L a month',
        'table generator-fuel',
      ),
    ],
    judgement: {
      demand: put('P', held.kW, 'kW'),
      relation: '≤',
      limit: put('P available', set.availableKW.low, 'kW'),
      tight: '10 %',
      rests: source('derating practice', 'memory'),
    },
  }
  return { findings, workings: [working] }
}
