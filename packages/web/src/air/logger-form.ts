import type { SensorPlace } from '@plugstead/engine/air'
import type { LogTableView } from '../worker/air/logger-types.ts'

type Kind = SensorPlace | 'time' | 'date'

/** What a person says of a logger’s list before it can be read; empty: not said. */
export interface LoggerForm {
  readonly columns: readonly { readonly what: Kind | ''; readonly unit: string }[]
  readonly order: '' | 'day first' | 'month first'
  readonly stamp: 'moment' | 'start' | 'end'
  readonly clock: string
  readonly missing: string
}

export const logUnits = (what: Kind | ''): readonly string[] | null =>
  what === '' || what === 'time' || what === 'date' ? null : what === 'humidity' ? ['%'] : ['C', 'F']

/** As the headings say it: a sensor whose unit they do not say is for a person to complete. */
export function loggerFormOf(head: LogTableView): LoggerForm {
  const taken = new Set<string>()
  return {
    columns: head.columns.map(({ guess }) => {
      if (guess === null) return { what: '', unit: '' }
      const once = guess.what === 'time' || guess.what === 'date'
      if (once && taken.has(guess.what)) return { what: '', unit: '' }
      taken.add(guess.what)
      const units = logUnits(guess.what)
      return { what: guess.what, unit: guess.unit !== null && units?.includes(guess.unit) === true ? guess.unit : '' }
    }),
    ...{ order: '', stamp: 'moment', clock: '', missing: '' },
  }
}

export type LoggerLacking = 'time' | 'heading' | 'sensor' | 'unit' | 'clock'

/** What still has to be said. */
export function loggerLacking(form: LoggerForm, head: LogTableView): readonly LoggerLacking[] {
  const used = form.columns.flatMap((c, i) => (c.what === '' ? [] : [head.columns[i]?.heading ?? '']))
  const sensors = form.columns.filter((c) => logUnits(c.what) !== null)
  const times = form.columns.filter((c) => c.what === 'time').length
  const own = (heading: string): boolean => heading !== '' && head.columns.filter((c) => c.heading === heading).length === 1
  return [
    ...(times === 1 && form.columns.filter((c) => c.what === 'date').length < 2 ? [] : (['time'] as const)),
    ...(used.every(own) ? [] : (['heading'] as const)),
    ...(sensors.length > 0 ? [] : (['sensor'] as const)),
    ...(sensors.every((c) => c.unit !== '') ? [] : (['unit'] as const)),
    ...(form.clock.trim() === '' || /^[+-]?\d{1,2}(:\d{2})?$/.test(form.clock.trim()) ? [] : (['clock'] as const)),
  ]
}

/** A mapping of a list’s columns as text: what the terminal takes under --log-columns too. */
export function logMappingText(name: string, head: LogTableView, form: LoggerForm): string {
  const q = (text: string): string => JSON.stringify(text)
  const headed = (what: Kind): string | undefined => head.columns[form.columns.findIndex((c) => c.what === what)]?.heading
  const date = headed('date')
  const missing = form.missing.split(',').flatMap((one) => (one.trim() === '' ? [] : [one.trim()]))
  return `${[
    `# Which column of ${name.replace(/[\r\n]/g, ' ')} is what.`,
    'plugstead-log-columns: 1',
    'time:',
    `  column: ${q(headed('time') ?? '')}`,
    ...(date === undefined ? [] : [`  date: ${q(date)}`]),
    ...(form.clock.trim() === '' ? [] : [`  clock: ${q(form.clock.trim())}`]),
    ...(form.order === '' ? [] : [`  dates: ${form.order}`]),
    `  stamp: ${form.stamp}`,
    'sensors:',
    ...form.columns.flatMap(({ what, unit }, i) =>
      logUnits(what) === null ? [] : [`  - { column: ${q(head.columns[i]?.heading ?? '')}, place: ${what}, unit: ${q(unit)} }`],
    ),
    ...(missing.length === 0 ? [] : [`missing: [${missing.join(', ')}]`]),
  ].join('\n')}\n`
}
