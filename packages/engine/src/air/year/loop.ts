import { Fault } from '../../kernel/index.ts'
import { powerOf } from '../surface/index.ts'
import type { Engine } from './engine.ts'
import { SATURATION, SATURATION_OVER_WATER } from './fast.ts'
import { advance } from './kernel.ts'
import { FAULTS, MODULE, READS, READS_AT } from './kernel-wasm.generated.ts'
import { WOOD_HUMIDITY } from './wood.ts'

/** Runs an engine through its steps `from` to `to`, negative ones unseen. */
export type Loop = (engine: Engine, from: number, to: number) => void

type List = Float64Array | Int32Array | Uint8Array

/**
 * Steps in a row. A function entered often is compiled whole, one that loops for a year only from its middle (a fifth slower); and a module's quick first
 * code gives way to its better one only between two calls.
 */
const DAY_H = 24

function byDay(engine: Engine, from: number, to: number, run: (from: number, to: number) => void): void {
  const day = DAY_H * engine.stepsPerHour
  for (let at = from; at < to; at += day) run(at, Math.min(at + day, to))
}

/** The loop as it is written. */
export const plainLoop: Loop = (engine, from, to) => byDay(engine, from, to, (start, end) => advance(engine, start, end))

/** WebAssembly as far as it is used here: the engine's own types know neither browser nor Node. */
interface Wasm {
  readonly Memory: new (size: { initial: number }) => { readonly buffer: ArrayBuffer; grow(pages: number): number }
  readonly Module: new (bytes: Uint8Array) => object
  readonly Instance: new (
    module: object,
    given: Readonly<Record<string, Readonly<Record<string, unknown>>>>,
  ) => { readonly exports: Readonly<Record<string, (from: number, to: number) => number>> }
}
declare const WebAssembly: Wasm | undefined

const TABLES = { SATURATION, SATURATION_OVER_WATER, WOOD_HUMIDITY }
const PAGE = 65536
const AT_A_TIME = 64

/** Where `a.b.c` leads; undefined where the chain breaks off. */
const reader = (path: string) => {
  const names = path.split('.')
  return (from: object): unknown =>
    names.reduce<unknown>((of, name) => (of as Record<string, unknown> | null | undefined)?.[name], from)
}
const reads = READS.map((read) => ({
  ...read,
  asked: read.path.endsWith('?'),
  find: reader(read.path.replace('?', '')),
  of: read.path in TABLES,
}))

/**
 * The same loop compiled to WebAssembly from the same text (`npm run loop`), to the same bits. Every run fills the one memory and copies out what came of
 * it before it ends, so any number of engines may be alive, and what a run gave is never written over. Null where there is no WebAssembly, or where a
 * page's policy forbids it.
 */
export function compiledLoop(wasm: Wasm | null = typeof WebAssembly === 'undefined' ? null : WebAssembly): Loop | null {
  if (wasm === null) return null
  const memory = new wasm.Memory({ initial: 1 })
  let run: (from: number, to: number) => number
  try {
    const bytes = Uint8Array.from(atob(MODULE), (letter) => letter.charCodeAt(0))
    run = new wasm.Instance(new wasm.Module(bytes), { loop: { memory, powerOf } }).exports.advance!
  } catch {
    return null
  }
  return (engine, from, to) => {
    const lists = filled(memory, engine)
    byDay(engine, from, to, (start, end) => {
      const fault = run(start, end)
      if (fault > 0) throw faultOf(fault, memory.buffer)
    })
    for (const { list, at, written } of lists) if (written) list.set(viewOf(memory.buffer, list, at))
  }
}

let best: Loop | undefined
/** The compiled loop, made when the first year is asked for; where it cannot be, the plain one. */
export const loopHere: Loop = (engine, from, to) => {
  best ??= compiledLoop() ?? plainLoop
  best(engine, from, to)
}

/** Puts all that the loop reads into the memory, which grows to hold it. */
function filled(memory: InstanceType<Wasm['Memory']>, engine: Engine) {
  const lists: { readonly list: List; readonly at: number; readonly written: boolean }[] = []
  const values: { readonly at: number; readonly value: number; readonly whole: boolean }[] = []
  let end = READS_AT + reads.length * 8
  reads.forEach((read, i) => {
    const value = read.find(read.of ? TABLES : engine)
    const at = READS_AT + i * 8
    if (read.asked) values.push({ at, value: value === null || value === undefined ? 0 : 1, whole: true })
    else if (read.as === 'int' || read.as === 'double')
      values.push({ at, value: value === null || value === undefined ? Number.NaN : Number(value), whole: read.as === 'int' })
    else {
      const list = value as List
      end = Math.ceil(end / AT_A_TIME) * AT_A_TIME
      lists.push({ list, at: end, written: read.written })
      values.push({ at, value: end, whole: true })
      end += list.byteLength
    }
  })
  const short = end - memory.buffer.byteLength
  if (short > 0) memory.grow(Math.ceil(short / PAGE))
  const { buffer } = memory
  const told = new DataView(buffer)
  for (const { at, value, whole } of values) whole ? told.setInt32(at, value, true) : told.setFloat64(at, value, true)
  for (const { list, at } of lists) viewOf(buffer, list, at).set(list)
  return lists
}

function viewOf(buffer: ArrayBuffer, list: List, at: number): List {
  if (list instanceof Float64Array) return new Float64Array(buffer, at, list.length)
  return list instanceof Int32Array ? new Int32Array(buffer, at, list.length) : new Uint8Array(buffer, at, list.length)
}

function faultOf(place: number, buffer: ArrayBuffer): Fault {
  const { code, told } = FAULTS[place - 1]!
  const numbers = new Float64Array(buffer, 0, told.length)
  return new Fault(code, Object.fromEntries(told.map((name, i) => [name, numbers[i]!])))
}
