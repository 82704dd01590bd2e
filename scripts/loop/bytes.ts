/** The binary format of WebAssembly 1.0, as much of it as the loop needs. @source WebAssembly Core Specification 1.0, ch. 5 */
export const OP = {
  block: 0x02,
  loop: 0x03,
  if: 0x04,
  else: 0x05,
  end: 0x0b,
  br: 0x0c,
  brIf: 0x0d,
  return: 0x0f,
  call: 0x10,
  get: 0x20,
  set: 0x21,
  tee: 0x22,
  i32Load: 0x28,
  f64Load: 0x2b,
  i32Load8U: 0x2d,
  i32Store: 0x36,
  f64Store: 0x39,
  i32Store8: 0x3a,
  i32Const: 0x41,
  f64Const: 0x44,
  i32Eqz: 0x45,
  i32And: 0x71,
  i32Or: 0x72,
  i32Shl: 0x74,
  i32ShrS: 0x75,
  i32Add: 0x6a,
  i32Sub: 0x6b,
  i32Mul: 0x6c,
  i32RemS: 0x6f,
  i64Const: 0x42,
  i64And: 0x83,
  i64Or: 0x84,
  i64Shl: 0x86,
  i64ShrU: 0x88,
  f64Abs: 0x99,
  f64Neg: 0x9a,
  f64Sqrt: 0x9f,
  f64Add: 0xa0,
  f64Sub: 0xa1,
  f64Mul: 0xa2,
  f64Div: 0xa3,
  f64Min: 0xa4,
  f64Max: 0xa5,
  i32WrapI64: 0xa7,
  i32TruncF64S: 0xaa,
  i64ExtendI32U: 0xad,
  f64ConvertI32S: 0xb7,
  f64ConvertI32U: 0xb8,
  i64ReinterpretF64: 0xbd,
  f64ReinterpretI64: 0xbf,
} as const

/** Toward zero, held at the ends of the range, 0 for what is no number: never traps. */
export const I32_TRUNC_SAT_F64_S = [0xfc, 0x02] as const

export const COMPARED: Readonly<Record<string, readonly [int: number, double: number]>> = {
  '===': [0x46, 0x61],
  '!==': [0x47, 0x62],
  '<': [0x48, 0x63],
  '>': [0x4a, 0x64],
  '<=': [0x4c, 0x65],
  '>=': [0x4e, 0x66],
}

export const TYPE = { int: 0x7f, double: 0x7c, long: 0x7e, none: 0x40 } as const

export function unsigned(value: number): number[] {
  const out: number[] = []
  let left = value
  do {
    const low = left % 128
    left = Math.floor(left / 128)
    out.push(left > 0 ? low | 0x80 : low)
  } while (left > 0)
  return out
}

export function signed(value: number): number[] {
  const out: number[] = []
  let left = BigInt(value)
  for (;;) {
    const low = Number(left & 0x7fn)
    left >>= 7n
    const done = (left === 0n && (low & 0x40) === 0) || (left === -1n && (low & 0x40) !== 0)
    out.push(done ? low : low | 0x80)
    if (done) return out
  }
}

export const double = (value: number): number[] => [...new Uint8Array(Float64Array.of(value).buffer)]

const listed = (parts: readonly (readonly number[])[]): number[] => [...unsigned(parts.length), ...parts.flat()]
const sized = (bytes: readonly number[]): number[] => [...unsigned(bytes.length), ...bytes]
const named = (name: string): number[] => sized([...new TextEncoder().encode(name)])
const section = (id: number, parts: readonly (readonly number[])[]): number[] => [id, ...sized(listed(parts))]

/** A module of one function `advance(from, to)`, that calls one function of two doubles and works in one memory, both told from outside. */
export function moduleOf(locals: readonly number[], code: readonly number[], called: string): Uint8Array {
  const runs: number[][] = []
  for (const type of locals) {
    const last = runs.at(-1)
    if (last?.[1] === type) last[0]! += 1
    else runs.push([1, type])
  }
  const declared = listed(runs.map(([count, type]) => [...unsigned(count!), type!]))
  return Uint8Array.from([
    ...[0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00],
    ...section(1, [
      [0x60, ...listed([[TYPE.double], [TYPE.double]]), ...listed([[TYPE.double]])],
      [0x60, ...listed([[TYPE.int], [TYPE.int]]), ...listed([[TYPE.int]])],
    ]),
    ...section(2, [
      [...named('loop'), ...named(called), 0x00, 0x00],
      [...named('loop'), ...named('memory'), 0x02, 0x00, 0x01],
    ]),
    ...section(3, [[0x01]]),
    ...section(7, [[...named('advance'), 0x00, 0x01]]),
    ...section(10, [sized([...declared, ...code])]),
  ])
}
