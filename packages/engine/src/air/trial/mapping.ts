import { isMap, isScalar, LineCounter, type Node, parseDocument, type YAMLMap } from 'yaml'
import type { Problem, Result } from '../../kernel/index.ts'
import { unitOf } from './headings.ts'
import { type LogMapping, NO_MAPPING, SENSOR_PLACES, type SensorPlace } from './log.ts'
import { logProblem } from './problems.ts'

const TIME_KEYS = ['column', 'date', 'clock', 'dates', 'stamp'] as const
const SENSOR_KEYS = ['column', 'place', 'unit', 'name', 'accuracy'] as const
const VERSION_KEY = 'plugstead-log-columns'
const VERSION = 1
const KEYS = [VERSION_KEY, 'time', 'sensors', 'missing'] as const

/** A mapping of a log's columns, as docs/air-trial.md describes it. Every problem is told with its line. */
export function readLogMapping(text: string): Result<LogMapping> {
  const lines = new LineCounter()
  const doc = parseDocument(text, { lineCounter: lines, version: '1.2' })
  const lineOf = (node: unknown): { line: number } => {
    const at = (node as Node | null)?.range?.[0] ?? 0
    return { line: lines.linePos(at).line }
  }
  const problems: Problem[] = doc.errors.map((error) =>
    logProblem('log/mapping', { line: lines.linePos(error.pos[0]).line }, error.message.split('\n')[0] as string, 'YAML 1.2'),
  )
  if (problems.length > 0) return { ok: false, problems }
  const wrong = (node: unknown, path: string, found: unknown, wanted: string) => {
    const said = typeof found === 'object' && found !== null ? 'a list or group' : found === undefined ? 'nothing' : `“${found}”`
    problems.push(logProblem('log/mapping', { ...lineOf(node), path }, said, wanted))
  }
  const top = doc.contents
  if (!isMap(top)) {
    wrong(top, '', top === null ? undefined : top, `a group with the keys ${KEYS.join(', ')}`)
    return { ok: false, problems }
  }
  const fieldsOf = (map: YAMLMap, path: string, known: readonly string[]) => {
    const out = new Map<string, { node: unknown; value: unknown }>()
    for (const pair of map.items) {
      const key = isScalar(pair.key) ? String(pair.key.value) : ''
      if (!known.includes(key)) wrong(pair.key, path, key, `one of: ${known.join(', ')}`)
      else out.set(key, { node: pair.value, value: isScalar(pair.value) ? pair.value.value : pair.value })
    }
    return out
  }
  const fields = fieldsOf(top as YAMLMap, '', KEYS)
  const version = fields.get(VERSION_KEY)
  if (version?.value !== VERSION)
    wrong(version?.node ?? top, VERSION_KEY, version?.value, `version ${VERSION}: “${VERSION_KEY}: ${VERSION}”`)
  const textOf = (field: { node: unknown; value: unknown } | undefined, path: string): string | null => {
    if (field === undefined) return null
    if (typeof field.value === 'string' && field.value.trim() !== '') return field.value.trim()
    wrong(field.node, path, field.value, 'words')
    return null
  }
  const oneOf = <T extends string>(
    field: { node: unknown; value: unknown } | undefined,
    path: string,
    of: readonly T[],
  ): T | null => {
    if (field === undefined) return null
    if (of.includes(field.value as T)) return field.value as T
    wrong(field.node, path, field.value, `one of: ${of.join(', ')}`)
    return null
  }

  let time: LogMapping['time'] = NO_MAPPING.time
  const timeField = fields.get('time')
  if (timeField !== undefined && !isMap(timeField.value))
    wrong(timeField.node, 'time', timeField.value, `a group with the keys ${TIME_KEYS.join(', ')}`)
  else if (timeField !== undefined) {
    const own = fieldsOf(timeField.value as YAMLMap, 'time', TIME_KEYS)
    const clock = own.get('clock')
    const clockH = clock === undefined ? null : hoursOf(clock.value)
    if (clockH === undefined)
      wrong(clock?.node, 'time.clock', clock?.value, '“standard”, “utc”, or hours east of Greenwich such as -9 or 5:30')
    time = {
      column: textOf(own.get('column'), 'time.column'),
      date: textOf(own.get('date'), 'time.date'),
      clock: clockH ?? null,
      dates: oneOf(own.get('dates'), 'time.dates', ['day first', 'month first']),
      stamp: oneOf(own.get('stamp'), 'time.stamp', ['moment', 'start', 'end']) ?? 'moment',
    }
  }

  let sensors: LogMapping['sensors'] = null
  const list = fields.get('sensors')
  if (list !== undefined) {
    const items = (list.value as { items?: readonly unknown[] } | null)?.items
    if (items === undefined || items.length === 0 || isMap(list.value))
      wrong(list.node, 'sensors', list.value, 'a list of sensors, each with “column” and “place”')
    else
      sensors = items.flatMap((item, i) => {
        const path = `sensors[${i}]`
        if (!isMap(item)) {
          wrong(item, path, isScalar(item) ? item.value : item, `a group with the keys ${SENSOR_KEYS.join(', ')}`)
          return []
        }
        const own = fieldsOf(item as YAMLMap, path, SENSOR_KEYS)
        const column = textOf(own.get('column'), `${path}.column`)
        if (!own.has('column')) wrong(item, `${path}.column`, undefined, 'the heading as it stands in the file')
        if (!own.has('place')) wrong(item, `${path}.place`, undefined, `one of: ${SENSOR_PLACES.join(', ')}`)
        const place = oneOf<SensorPlace>(own.get('place'), `${path}.place`, SENSOR_PLACES)
        const unitField = own.get('unit')
        const unit = unitField === undefined ? null : unitOf(String(unitField.value))
        if (unitField !== undefined && unit === null) wrong(unitField.node, `${path}.unit`, unitField.value, 'C, F or %')
        const accuracy = own.get('accuracy')
        const value = accuracy === undefined ? null : accuracyOf(accuracy.value, place)
        if (value === undefined)
          wrong(
            accuracy?.node,
            `${path}.accuracy`,
            accuracy?.value,
            '“0.5 K” for a temperature (0.01 to 10), “3 %” for humidity (0.1 to 30)',
          )
        if (column === null || place === null) return []
        return [
          {
            column,
            place,
            unit,
            name: textOf(own.get('name'), `${path}.name`),
            accuracy: value === null || value === undefined ? null : { value },
          },
        ]
      })
  }

  const missing: { value: number }[] = []
  const codes = fields.get('missing')
  if (codes !== undefined) {
    const items = (codes.value as { items?: readonly unknown[] } | null)?.items
    if (items === undefined) wrong(codes.node, 'missing', codes.value, 'a list of numbers')
    else
      for (const item of items) {
        const value = isScalar(item) ? item.value : item
        if (typeof value === 'number' && Number.isFinite(value)) missing.push({ value })
        else wrong(item, 'missing', value, 'a number')
      }
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: { time, sensors, missing } }
}

/** Hours east of Greenwich; undefined where it cannot be read. */
function hoursOf(value: unknown): number | 'standard' | undefined {
  if (value === 'standard') return 'standard'
  if (typeof value === 'string' && /^(utc|gmt)$/i.test(value)) return 0
  const match = /^(?:(?:utc|gmt) ?)?([+\-−]?)(\d{1,2})(?::?(\d{2}))?$/i.exec(String(value))
  if (typeof value === 'number' && Math.abs(value) <= 14) return value
  if (match === null || Number(match[2]) > 14) return undefined
  return (match[1] === '' || match[1] === '+' ? 1 : -1) * (Number(match[2]) + Number(match[3] ?? 0) / 60)
}

function accuracyOf(value: unknown, place: SensorPlace | null): number | undefined {
  const match = /^(\d+(?:\.\d+)?) ?(K|%)$/.exec(String(value))
  if (match === null || (match[2] === '%') !== (place === 'humidity')) return undefined
  const number = Number(match[1])
  if (match[2] === '%') return number >= 0.1 && number <= 30 ? number / 100 : undefined
  return number >= 0.01 && number <= 10 ? number : undefined
}
