import type { AirDesign, Assumption, BoxDesign, BoxWanted, FitDesign, Job, YearSeason } from '../../job/index.ts'
import { source } from '../../kernel/index.ts'
import type { Stay } from '../facts/stay.ts'
import type { AirAnswer, AirBoxResult, AirEnd } from '../result.ts'
import { borrowedMonths } from './borrowed.ts'
import { line, type Noted, noted, RUN, whole } from './finding.ts'
import { gearParts } from './gear.ts'
import { settling } from './harm.ts'
import { harmFindings } from './harm-findings.ts'
import { heatFindings } from './heat-findings.ts'
import { plain } from './hours.ts'
import { withHumidity } from './humidity-made.ts'
import { withMeasured } from './measured.ts'
import { remedies } from './mends.ts'
import { remedyFindings } from './remedy-findings.ts'
import { type AirLack, type BoxAir, type BoxRuns, ENDS } from './runs.ts'
import type { AirSetting } from './setting.ts'
import { shortFindings } from './short-findings.ts'
import { cooledAsTold, staying } from './stay-findings.ts'
import { unplugged } from './unplugged.ts'
import { wetFindings } from './wet-findings.ts'
import { airShorts, airYear, type Gear, outsideOf } from './year.ts'

/** Books of a step that close worse than this are not books. @source table `close-01`: conservation. Provenance: common practice */
const MOST_RESIDUAL = 1e-9
const BILLION = 1e9
const RESIDUAL = 'largest residual of a step over the sum of its flows, in billionths; one is the most'

/** One box as it is built, for the year it is taken through. */
export interface AirBox {
  readonly box: string
  readonly wanted: BoxWanted | undefined
  readonly air: AirDesign
  readonly fit: Pick<FitDesign, 'items'> | null
  readonly designs: readonly BoxDesign[]
  /** When anything is plugged in, where that is not all year. */
  readonly season?: YearSeason | null
  /** Days of the year on which it stands here, where that is not all of them. */
  readonly standing?: YearSeason | null
  /** What is told of its stay here. */
  readonly stay?: Stay
}

/**
 * Will it stay dry, and cool enough? Counts the runs of each box, judges them at both ends of what nobody measured, and says what is missing
 * where a box could not be run.
 */
export function answerRuns(of: {
  readonly yard: Pick<Job['yard'], 'corrosivity'>
  readonly boxes: readonly AirBox[]
  /** The runs of a box, or what it lacks. */
  readonly runsOf: (box: AirBox) => BoxAir
}): AirAnswer {
  const answers = of.boxes.map((box) => {
    const air = of.runsOf(box)
    return 'lacks' in air
      ? { noted: [missing(box.box, air.lacks)], assumed: [] as readonly Assumption[], result: null }
      : { ...answerBox(box, air.runs, of.yard.corrosivity), assumed: air.runs.assumed }
  })
  const all = answers.flatMap((one) => one.noted)
  return {
    findings: all.map((one) => one.finding),
    workings: all.map((one) => one.working),
    assumed: answers.flatMap((one) => one.assumed),
    result: { boxes: answers.flatMap((one) => (one.result === null ? [] : [one.result])) },
  }
}

function answerBox(
  box: AirBox,
  runs: BoxRuns,
  corrosivity: string | null,
): { readonly noted: readonly Noted[]; readonly result: AirBoxResult } {
  const settles = settling(corrosivity)
  const gear: Gear = { parts: gearParts(box.designs, box.fit), fit: box.fit, settles, season: box.season ?? null }
  const outside = outsideOf(runs.weather, settles)
  const counted = (end: AirEnd) => airYear({ end, runs: runs.ends[end], weather: runs.weather, outside, gear })
  const shorts = airShorts(runs, gear)
  const setting: AirSetting = {
    ...{ box: box.box, wanted: box.wanted, air: box.air, designs: box.designs, runs, outside, shorts, parts: gear.parts },
    ...{ season: box.season ?? null, standing: box.standing ?? null },
    counted: { tight: counted('tight'), leaky: counted('leaky') },
    assumed: [...new Set(runs.assumed.map((a) => a.path))],
  }
  const mends = remedies(box.box, box.air)
  const { tight, leaky } = setting.counted
  const wet = ({ year }: typeof tight) =>
    year.counts.fellOnGearKg * 1000 +
    year.counts.gearDewMostGPerM2 +
    (year.counts.faces.find((f) => f.side === 'roof')?.mostGPerM2 ?? 0)
  return {
    noted: [
      ...[
        ...heatFindings(setting, mends),
        ...wetFindings(setting, mends),
        ...harmFindings(setting, mends, corrosivity),
        ...remedyFindings(setting, mends),
        ...shortFindings(setting, mends),
      ].map((one) => withHumidity(withMeasured(one, runs.measured ?? []), runs)),
      ...staying(setting, box.stay),
      ...unplugged(setting),
      ...cooledAsTold(setting),
      books(setting),
      ...(runs.borrowed ? [borrowedMonths(box.box, runs.borrowed, setting.assumed)] : []),
      ...((runs.unread ?? []).length === 0 ? [] : [unread(box.box, runs.unread ?? [])]),
    ],
    result: {
      box: box.box,
      weather: {
        ...{ place: runs.weather.place, ...runs.used, firstDay: runs.weather.firstDay, firstHour: runs.weather.firstHour },
        ...{ hoursCount: runs.weather.hoursCount, origins: runs.weather.origins },
      },
      outsideC: plain(outside.airC, 10),
      outsideRelativePct: plain(outside.relativeFrac, 1, 100),
      ends: { tight: tight.year, leaky: leaky.year },
      wetterEnd: wet(leaky) > wet(tight) ? 'leaky' : 'tight',
      hotterEnd: leaky.year.counts.airMostC > tight.year.counts.airMostC ? 'leaky' : 'tight',
      loadedMostC: loadedMostC(setting),
      shorts,
      openings: runs.ends.tight.model.openings.map(({ id, side, areaM2, heightM, winterFrac }) => ({
        ...{ id, side, areaM2, heightM, winterFrac },
      })),
      winterMonths: runs.ends.tight.model.winterMonths,
    },
  }
}

/** A season without a hot week in it is judged by its own hours. */
function loadedMostC({ counted, shorts, parts, season }: AirSetting): number | null {
  const years = ENDS.flatMap((end) => counted[end].year.breaker?.airC ?? [])
  const breakers = parts.findIndex((p) => p.derates)
  const weeks = shorts.flatMap(({ run, ends }) =>
    run === 'hot week' && season === null ? ENDS.flatMap((end) => ends[end].gear[breakers]?.hottestC ?? []) : [],
  )
  return years.length === 0 ? null : Math.ceil(Math.max(...years, ...weeks))
}

/** Whether heat and water of every step balance: else nothing above is believed. */
function books(setting: AirSetting): Noted {
  const years = ENDS.map((end) => setting.counted[end].year)
  const most = Math.max(...years.flatMap((y) => [y.energyResidualFrac, y.waterResidualFrac]))
  const closes = most <= MOST_RESIDUAL
  return noted({
    code: 'air/books',
    subject: setting.box,
    verdict: closes ? 'holds' : 'unknown',
    basis: 'physics',
    said: closes
      ? `Heat and water of the ${whole(setting.runs.weather.hoursCount)} hours balance at both ends: what comes in is what leaves and what is stored.`
      : 'Heat or water of the hours does not balance: something is missing in the run, and none of its figures is to be believed.',
    title: `Books of ${setting.box}`,
    steps: years.flatMap((y) => [
      line(`heat ${y.end}`, RESIDUAL, [], y.energyResidualFrac * BILLION, '', RUN),
      line(`water ${y.end}`, RESIDUAL, [], y.waterResidualFrac * BILLION, '', RUN),
    ]),
    assumed: setting.assumed,
  })
}

/** Words that something else stands in for: the rest is answered, this is not known. */
function unread(box: string, words: readonly AirLack[]): Noted {
  return noted({
    code: 'air/unread',
    subject: box,
    verdict: 'unknown',
    basis: 'physics',
    said: words.map((w) => w.said).join(' '),
    title: `Words about ${box} that cannot be read`,
    steps: words.map((w) => line('unread', w.path, [], 'something else stands for it', '', source('the job document', 'told'))),
    assumed: words.map((w) => w.path),
  })
}

/** Boxes whose year nobody asked for: unknown, and said why. */
export function airNotAsked(boxes: readonly string[]): AirAnswer {
  const all = boxes.map((box) =>
    noted({
      ...{ code: 'air/not-asked', subject: box, verdict: 'unknown', basis: 'physics', assumed: [] },
      said: `Whether ${box} stays dry and cool enough was not worked out here: plan or assess the job itself for it.`,
      title: `Air of ${box}`,
      steps: [line('hours', 'run for it', [], 0, 'h', RUN)],
    }),
  )
  return { findings: all.map((one) => one.finding), workings: all.map((one) => one.working), assumed: [], result: { boxes: [] } }
}

/** A box that nothing was told of stays unknown; each thing that is missing is named. */
function missing(box: string, lacks: readonly AirLack[]): Noted {
  return noted({
    code: 'air/missing',
    subject: box,
    verdict: 'unknown',
    basis: 'physics',
    said: `Whether ${box} stays dry and cool enough is not known. ${lacks.map((l) => l.said).join(' ')}`,
    title: `What ${box} lacks for its year`,
    steps: lacks.map((l) => line('missing', l.path, [], 'not told', '', source('the job document', 'told'))),
    assumed: [],
  })
}
