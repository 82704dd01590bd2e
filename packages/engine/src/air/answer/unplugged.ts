import { judgeEnds, source, type Verdict } from '../../kernel/index.ts'
import type { WeatherHours } from '../../weather/index.ts'
import { daysWords, restOfYear } from '../facts/stay.ts'
import type { BoxModel, YearRun } from '../year/types.ts'
import { ON_GEAR_KG_PER_M2 } from './counts.ts'
import { dripped } from './drips.ts'
import { between, CAUTION, hours, line, litres, type Noted, noted, tenths, WHO } from './finding.ts'
import { most, whenAt } from './hours.ts'
import type { AirSetting } from './setting.ts'

/** The same box with its supply off: no heater, no fan but one that the sun drives, no heat of gear or light, and nobody who comes in. Null: it has neither heater nor fan. */
export function unpluggedOf(model: BoxModel): BoxModel | null {
  const fan = model.fan !== null && model.fan.solar === null
  if (model.heater === null && !fan) return null
  return {
    ...model,
    ...{ heater: null, fan: fan ? null : model.fan },
    ...{ gearHeatW: new Float64Array(model.gearHeatW.length), airHeatW: new Float64Array(model.airHeatW.length) },
    ...{ waterKgS: new Float64Array(model.waterKgS.length), doorOpenS: new Float64Array(model.doorOpenS.length) },
  }
}

interface Off {
  readonly hoursCount: number
  readonly dewGPerM2: number
  readonly dewWhen: string
  readonly onGearKg: number
}

function offAt(model: BoxModel, run: YearRun, weather: WeatherHours): Off {
  const film = most(run.series.gearFilmKgPerM2)
  return {
    ...{ hoursCount: run.hoursCount, dewGPerM2: film.value * 1000, dewWhen: whenAt(weather, film.atH + 1) },
    onGearKg: dripped({ model, run, weather }).onGearKg,
  }
}

const wetVerdict = (of: Off): Verdict => (of.onGearKg > 0 || of.dewGPerM2 > ON_GEAR_KG_PER_M2 * 1000 ? 'fails' : 'holds')

const OFF = source('the hourly run of this box without heater, fan and heat of its gear', 'computed')

/** Whether its gear stays dry in the rest of the year when its supply is off: where that decides, it is not known. */
export function unplugged(setting: AirSetting): readonly Noted[] {
  const { runs, season } = setting
  const [tight, leaky] = [runs.ends.tight.unplugged, runs.ends.leaky.unplugged]
  if (season === null || tight === undefined || leaky === undefined) return []
  const at = (which: 'on' | 'off') => ({
    tight: offAt(runs.ends.tight.model, tight[which], tight.hours),
    leaky: offAt(runs.ends.leaky.model, leaky[which], leaky.hours),
  })
  const [off, on] = [at('off'), at('on')]
  const [dead, live] = [
    judgeEnds(wetVerdict(off.tight), wetVerdict(off.leaky)),
    judgeEnds(wetVerdict(on.tight), wetVerdict(on.leaky)),
  ]
  const verdict = dead === live ? dead : 'unknown'
  const dew = (of: typeof off) => between(of.tight.dewGPerM2, of.leaky.dewGPerM2, (g) => `${tenths(g)} g/m²`)
  const wetter = off.leaky.dewGPerM2 > off.tight.dewGPerM2 ? off.leaky : off.tight
  const decides =
    dead === live
      ? ' Whether the supply stays on decides nothing of that.'
      : ' Nobody said whether the supply stays on then, and that decides: leave it on for the heater and fan, or empty, dry and close the cabinet.'
  return [
    noted({
      code: 'air/unplugged',
      subject: setting.box,
      verdict,
      basis: 'physics',
      said: `Out of its season, ${daysWords(restOfYear(season))}, ${hours(off.tight.hoursCount)}: with the supply off heater and fan stand still and nobody comes in: at most ${dew(off)} settle on the gear, on ${wetter.dewWhen}, and ${between(off.tight.onGearKg, off.leaky.onGearKg, litres)} fall on gear without a hood; with it on, ${dew(on)} and ${between(on.tight.onGearKg, on.leaky.onGearKg, litres)}.${decides}`,
      title: `${setting.box} with its supply off`,
      steps: (['tight', 'leaky'] as const).flatMap((end) => [
        line(
          `m off ${end}`,
          'most on the gear at once, supply off',
          [['hours', off[end].hoursCount, 'h']],
          off[end].dewGPerM2,
          'g/m²',
          OFF,
        ),
        line(`on gear off ${end}`, 'fell on gear without a hood, supply off', [], off[end].onGearKg, 'kg', OFF),
      ]),
      notes: [
        'The run without current begins on the last hour of the season, at the air that the run with current ends it with, and dry.',
      ],
      assumed: setting.assumed,
      decides: WHO.shop,
      caution: CAUTION.wet,
    }),
  ]
}
