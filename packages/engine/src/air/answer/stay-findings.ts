import { source } from '../../kernel/index.ts'
import { daysWords, type Stay } from '../facts/stay.ts'
import { hours, line, type Noted, noted, RUN, WHO, whole } from './finding.ts'
import { monthsOf } from './hours.ts'
import { type AirSetting, spanWords } from './setting.ts'
import { seasonHours } from './standing.ts'

const TOLD = source('start, phases and moves of the job', 'told')
const NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const

/** Which days of the year are judged, and how many hours; none where it stands here and is plugged in all year. */
export function staying(setting: AirSetting, stay: Stay | undefined): readonly Noted[] {
  const { standing, season, runs } = setting
  const told = stay?.said ?? ''
  if (standing === null && season === null && told === '') return []
  const { weather } = runs
  const inUse = seasonHours(weather, season)?.reduce((sum, is) => sum + is, 0) ?? weather.hoursCount
  const counts = new Uint32Array(12)
  for (const month of monthsOf(weather)) counts[month]! += 1
  const here =
    standing === null
      ? `All ${hours(weather.hoursCount)} of a year are counted here.`
      : `It stands here from ${daysWords(standing)}: ${hours(weather.hoursCount)} are counted, the others are not, and mould begins at nothing on the first of them. It is taken to come as if it had stood here before.`
  const used =
    season === null
      ? ''
      : ` Of these, heat and cold of its gear are judged in ${spanWords(setting)} ${hours(inUse)}; drips, dew, mould and rust count in all of them, with its heater and fan as if its supply stays on (air/unplugged: when it does not).`
  return [
    noted({
      code: 'air/stay',
      subject: setting.box,
      verdict: stay?.elsewhere === true ? 'unknown' : 'holds',
      basis: 'physics',
      said: `${here}${used}${told === '' ? '' : ` ${told}`}`,
      title: `Hours of ${setting.box} that are counted`,
      steps: [
        line(
          'h here',
          'hours of the months in which it stands here',
          NAMES.flatMap((name, m) => (counts[m] === 0 ? [] : [[name, counts[m]!, 'h'] as const])),
          weather.hoursCount,
          'h',
          TOLD,
        ),
        ...(season === null ? [] : [line('h in use', 'hours of its season among them', [], inUse, 'h', TOLD)]),
        line('runs', 'short runs in that time', [], whole(setting.shorts.length), '', RUN),
      ],
      assumed: setting.assumed,
      decides: WHO.shop,
    }),
  ]
}

const MACHINE = /air.?condition|cooling (machine|unit)|chiller|refrigerat|heat pump/i
const FAN = /\bfans?\b/i
const VENT = /\b(vents?|louvres?|openings?)\b/i

/** How it was to be cooled, in words, beside what the design has. A cooling machine is not modelled: what it does is not known. */
export function cooledAsTold(setting: AirSetting): readonly Noted[] {
  const told = setting.wanted?.cooled
  if (told === undefined) return []
  const first = [
    { what: 'machine', at: told.search(MACHINE) },
    { what: 'fan', at: told.search(FAN) },
    { what: 'vents', at: told.search(VENT) },
  ]
    .filter((one) => one.at >= 0)
    .toSorted((a, b) => a.at - b.at)[0]?.what
  const { air } = setting
  const has = first === 'fan' ? air.fan !== null : first === 'vents' ? air.vents.length > 0 : false
  const design = `${air.fan === null ? 'no fan' : `a fan of ${whole(air.fan.powerW)} W`} and ${air.vents.length === 0 ? 'no vents' : `${air.vents.length} openings`}`
  const said = has
    ? `It was to be cooled so: “${told}”. The first of it is in the design, which has ${design}; heat is judged with these alone.`
    : first === 'machine'
      ? `It was to be cooled so: “${told}”. No cooling machine is in the model: neither what it takes away, nor its current, nor its drips. Heat is judged without it, with ${design}.`
      : first === undefined
        ? `How it was to be cooled, “${told}”, cannot be read as vents, fan or cooling machine. Heat is judged with ${design}.`
        : `It was to be cooled so: “${told}”. The design has ${design}, so the first of it is not built; heat is judged without it.`
  return [
    noted({
      ...{ code: 'air/cooled', subject: setting.box, basis: 'house', said, title: `Cooling of ${setting.box} as told` },
      verdict: has ? 'holds' : first === undefined || first === 'machine' ? 'unknown' : 'tight',
      steps: [
        line(
          'first named',
          'vents, fan or cooling machine, by the first of these words',
          [],
          first ?? 'none',
          '',
          source(`boxes[].cooled: ${told}`, 'told'),
        ),
      ],
      assumed: [],
      decides: WHO.shop,
    }),
  ]
}
