import type { Between, ColumnKey, ColumnMapping, TableHead, TimePart } from '@plugstead/engine/weather'

/** What a person said of one column. */
export interface ColumnSaid {
  readonly what: ColumnKey | TimePart | ''
  readonly unit: string
}

/** What a person says of a table before its hours can be read; empty: not said. */
export interface ColumnsForm {
  readonly columns: readonly ColumnSaid[]
  readonly order: NonNullable<ColumnMapping['time']['order']>
  readonly stamp: ColumnMapping['time']['stamp'] | ''
  readonly clock: NonNullable<ColumnMapping['time']['clock']>
  readonly decimal: NonNullable<ColumnMapping['decimal']>
  readonly missing: string
  readonly place: {
    readonly name: string
    readonly latitude: string
    readonly longitude: string
    readonly height: string
    readonly clock: string
  }
  readonly fill: boolean
}

export const DATE_PARTS = ['year', 'month', 'day', 'hour'] as const
const TIME: ReadonlySet<string> = new Set(['time', 'time of day', 'minute', ...DATE_PARTS])
export const isTime = (what: ColumnSaid['what']): what is TimePart => TIME.has(what)

/** As the headings say it: the first column of a kind. What the time means is never guessed. */
export function formOf(head: TableHead, place: ColumnsForm['place']): ColumnsForm {
  const taken = new Set<string>()
  return {
    columns: head.columns.map(({ guess }) => {
      if (guess === null || taken.has(guess.what)) return { what: '', unit: '' }
      taken.add(guess.what)
      return { what: guess.what, unit: guess.unit ?? '' }
    }),
    ...{ order: 'year first', stamp: '', clock: 'local', decimal: 'point', missing: '', place, fill: false },
  }
}

export type Lacking = 'time' | 'twice' | 'air' | 'unit' | 'stamp' | 'place'

/** What still has to be said. */
export function lacking(form: ColumnsForm): readonly Lacking[] {
  const said = form.columns.map((c) => c.what).filter((what) => what !== '')
  const has = (what: string): boolean => (said as readonly string[]).includes(what)
  const { latitude, longitude, height, clock } = form.place
  const number = (text: string): boolean => /^[+-]?\d+(\.\d+)?$/.test(text.trim())
  return [
    ...(has('time') || DATE_PARTS.every(has) ? [] : (['time'] as const)),
    ...(new Set(said).size === said.length ? [] : (['twice'] as const)),
    ...(has('air') ? [] : (['air'] as const)),
    ...(form.columns.every((c) => c.what === '' || isTime(c.what) || c.unit !== '') ? [] : (['unit'] as const)),
    ...(form.stamp === '' ? (['stamp'] as const) : []),
    ...(number(latitude) && number(longitude) && number(clock) && height.trim() !== '' ? [] : (['place'] as const)),
  ]
}

/** A mapping of columns as text: what the terminal takes under --columns too. Said in full, so that nothing of it is a guess. */
export function mappingText(of: {
  readonly name: string
  readonly head: TableHead
  readonly form: ColumnsForm
  readonly skipLines: number
}): string {
  const { name, head, form, skipLines } = of
  const q = (text: string): string => JSON.stringify(text)
  const once = (heading: string): boolean => head.columns.filter((c) => c.heading === heading).length === 1
  const ref = (i: number): string => {
    const heading = head.columns[i]?.heading ?? ''
    return heading !== '' && once(heading) ? q(heading) : `${i + 1}`
  }
  const at = (what: string): number => form.columns.findIndex((c) => c.what === what)
  const part = (key: string, what: string): readonly string[] => (at(what) < 0 ? [] : [`  ${key}: ${ref(at(what))}`])
  const missing = form.missing.split(',').flatMap((one) => (one.trim() === '' ? [] : [q(one.trim())]))
  const { place } = form
  return `${[
    `# Which column of ${name.replace(/[\r\n]/g, ' ')} is what.`,
    'plugstead-weather-columns: 1',
    `title: ${q(name)}`,
    'place:',
    ...(place.name.trim() === '' ? [] : [`  name: ${q(place.name.trim())}`]),
    ...[`  latitude: ${place.latitude.trim()}`, `  longitude: ${place.longitude.trim()}`],
    ...[`  height: ${q(place.height.trim())}`, `  clock: ${place.clock.trim()}`],
    ...[`between: ${head.between}`, `decimal: ${form.decimal}`, `headings: ${head.headings ? 'yes' : 'no'}`],
    ...(skipLines === 0 ? [] : [`skip-lines: ${skipLines}`]),
    ...(missing.length === 0 ? [] : [`missing: [${missing.join(', ')}]`]),
    'time:',
    ...(at('time') < 0
      ? [...DATE_PARTS, 'minute'].flatMap((key) => part(key, key))
      : [...part('column', 'time'), ...part('and', 'time of day'), `  order: ${form.order}`]),
    ...[`  stamp: ${form.stamp}`, `  clock: ${form.clock}`],
    'columns:',
    ...form.columns.flatMap(({ what, unit }, i) =>
      what === '' || isTime(what) ? [] : [`  ${what}: { column: ${ref(i)}, unit: ${q(unit)} }`],
    ),
  ].join('\n')}\n`
}

export const BETWEEN: readonly Between[] = ['comma', 'semicolon', 'tab', 'blanks']
