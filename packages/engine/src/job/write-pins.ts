import { isMap, isScalar, type Node, type Pair, type Scalar, type YAMLMap } from 'yaml'
import { Fault, type Result } from '../kernel/index.ts'
import { openDocument } from './document.ts'
import { pinValue, readJob } from './read.ts'
import { PIN_PATH } from './schema/job.ts'
import type { Pin } from './types.ts'

/**
 * The document with these choices pinned: only the lines of the pins change. Comments, order, quoting and line ends of everything else
 * stay byte for byte. A choice that is pinned already gets its new value in its old place.
 * Problems of a document that cannot be read, before or with the pins in it, come back as `readJob` gives them.
 * @throws Fault `job/pin-path` for a path that is none, `job/pin-lost` when the outcome does not read back with these pins (our own mistake)
 */
export function writePins(text: string, wanted: readonly Pin[]): Result<string> {
  const pins = wanted.map((pin) => ({ ...pin, value: pinValue(pin.path, pin.value) }))
  const before = readJob(text)
  if (!before.ok) return before
  for (const pin of pins) if (!PIN_PATH.test(pin.path)) throw new Fault('job/pin-path', pin.path)
  const written = pins.reduce(withPin, text)
  const after = readJob(written)
  if (!after.ok) return after
  const kept = pins.every(
    (pin, i) => pins.findLastIndex((p) => p.path === pin.path) !== i || after.value.pins.some((p) => same(p, pin)),
  )
  if (!kept) throw new Fault('job/pin-lost', 'pins differ')
  return { ok: true, value: written }
}

const same = (a: Pin, b: Pin): boolean => a.path === b.path && a.value === b.value && a.by === b.by && a.why === b.why

function withPin(text: string, pin: Pin): string {
  const opened = openDocument(text)
  if (!opened.ok) throw new Fault('job/pin-lost', opened.problems[0])
  const root = opened.value.yaml.contents as YAMLMap
  const newline = text.includes('\r\n') ? '\r\n' : '\n'
  const choices = root.items.find((item) => keyOf(item) === 'choices')
  if (root.flow === true) return intoFlow(text, root, choices, pin)
  const line = (indent: string) => `${indent}${pin.path}: ${flowPin(pin)}`
  if (choices === undefined) {
    const end = endOfBody(text)
    return `${text.slice(0, end)}${end > 0 && text[end - 1] !== '\n' ? newline : ''}${newline}choices:${newline}${line('  ')}${newline}${text.slice(end)}`
  }
  const map = choices.value
  if (!isMap(map) || map.items.length === 0) {
    // `choices:` with `{}` behind it.
    const [from, , to] = (map as Node).range as [number, number, number]
    const valueEnd = (map as Node).range?.[1] ?? to
    return `${text.slice(0, from).trimEnd()}${newline}${line('  ')}${text.slice(valueEnd)}`
  }
  const old = map.items.find((item) => keyOf(item) === pin.path)
  if (old !== undefined) return replaced(text, old, pin)
  if (map.flow === true) return intoFlow(text, map, undefined, pin)
  const last = map.items.at(-1) as Pair
  const indent = indentAt(text, (map.items[0] as Pair<Scalar>).key.range?.[0] ?? 0)
  const at = endOfLine(text, (last.value as Node).range?.[1] ?? 0)
  return `${text.slice(0, at)}${newline}${line(indent)}${text.slice(at)}`
}

const keyOf = (item: Pair): unknown => (isScalar(item.key) ? item.key.value : undefined)

/** Into `{ … }`: JSON, or YAML written like it. */
function intoFlow(text: string, map: YAMLMap, choices: Pair | undefined, pin: Pin): string {
  if (choices !== undefined && isMap(choices.value)) {
    const old = choices.value.items.find((item) => keyOf(item) === pin.path)
    if (old !== undefined) return replaced(text, old, pin)
    return intoFlow(text, choices.value, undefined, pin)
  }
  const isRoot = map.items.some((item) => keyOf(item) === 'plugstead')
  const entry = isRoot
    ? `"choices": { ${JSON.stringify(pin.path)}: ${flowPin(pin)} }`
    : `${JSON.stringify(pin.path)}: ${flowPin(pin)}`
  const last = map.items.at(-1)
  if (last === undefined) {
    const from = (map.range?.[0] ?? 0) + 1
    return `${text.slice(0, from)} ${entry} ${text.slice((map.range?.[1] ?? from) - 1)}`
  }
  const at = (last.value as Node).range?.[1] ?? 0
  return `${text.slice(0, at)}, ${entry}${text.slice(at)}`
}

function replaced(text: string, old: Pair, pin: Pin): string {
  const [from, to] = (old.value as Node).range as [number, number, number]
  const end = isMap(old.value) && old.value.flow !== true ? lastEnd(old.value) : to
  return `${text.slice(0, from)}${flowPin(pin)}${text.slice(end)}`
}

/** End of the last value in a block map: its own range runs on over comments and blank lines. */
function lastEnd(map: YAMLMap): number {
  const last = map.items.at(-1)?.value as Node
  return isMap(last) && last.flow !== true ? lastEnd(last) : (last.range?.[1] ?? 0)
}

/** One pin on one line, in the form that is both YAML and JSON. */
const flowPin = (pin: Pin): string =>
  `{ "value": ${JSON.stringify(pin.value)}, "by": ${JSON.stringify(pin.by)}, "why": ${JSON.stringify(pin.why)} }`

function indentAt(text: string, offset: number): string {
  const start = text.lastIndexOf('\n', offset - 1) + 1
  return /^[ ]*/.exec(text.slice(start, offset))?.[0] ?? ''
}

/** A comment behind the last value stays on its line. */
function endOfLine(text: string, offset: number): number {
  const next = text.indexOf('\n', offset)
  const end = next < 0 ? text.length : next
  return end > 0 && text[end - 1] === '\r' ? end - 1 : end
}

/** End of the document's own lines: before `...`, if it is there. */
function endOfBody(text: string): number {
  const mark = /(^|\n)\.\.\.[ \t]*(\r?\n|$)/.exec(text)
  return mark ? mark.index + (mark[1] === '' ? 0 : 1) : text.length
}
