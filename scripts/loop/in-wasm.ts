import ts from 'typescript'
import { COMPARED, double, I32_TRUNC_SAT_F64_S, moduleOf, OP, signed, TYPE, unsigned } from './bytes.ts'
import { bare, type Kind, type List, loopText, type Read } from './text.ts'

/**
 * The loop of `packages/engine/src/air/year/kernel.ts`, statement for statement as one function of a WebAssembly module: the same sums of the same doubles
 * in the same order, so that it gives the same bits. Knows the few kinds of statement that a loop over arrays needs, and throws on any other.
 */
export interface LoopInWasm {
  readonly bytes: Uint8Array
  /** Eight bytes each from `READS_AT` on: a number, or where a list stands. */
  readonly reads: readonly { readonly path: string; readonly as: string; readonly written: boolean }[]
  /** What the loop throws: `advance` returns the place in this list, from 1; the numbers stand at the beginning of the memory. */
  readonly faults: readonly { readonly code: string; readonly told: readonly string[] }[]
}

/** Room for the numbers of a fault before what is read. */
export const READS_AT = 64

const ARITHMETIC: Readonly<Record<string, readonly [int: number | null, double: number | null]>> = {
  '+': [OP.i32Add, OP.f64Add],
  '-': [OP.i32Sub, OP.f64Sub],
  '*': [OP.i32Mul, OP.f64Mul],
  '/': [null, OP.f64Div],
  '%': [OP.i32RemS, null],
  '>>': [OP.i32ShrS, null],
  '&': [OP.i32And, null],
}
const OF_ONE: Readonly<Record<string, number>> = { 'Math.sqrt': OP.f64Sqrt, 'Math.abs': OP.f64Abs }
const OF_TWO: Readonly<Record<string, number>> = { 'Math.min': OP.f64Min, 'Math.max': OP.f64Max }

/** Lists of the innermost loops. */
const INNERMOST = new Set(['C', 'X', 'SATURATION', 'outer', 'inner', 'law', 'flowOf', 'drive'])
const THIRD_BIAS = 715094163

const asOf = ({ value, kind }: Read): string =>
  value instanceof Float64Array
    ? 'doubles'
    : value instanceof Int32Array
      ? 'ints'
      : value instanceof Uint8Array
        ? 'bytes'
        : kind === 'int'
          ? 'int'
          : 'double'

/** A sum of `times` an expression each, and a number: what an index is made of. */
interface Sum {
  readonly parts: readonly { readonly node: ts.Expression; readonly times: number }[]
  readonly more: number
}

/** @throws Error on a statement that it does not know */
export function loopInWasm(engine: object): LoopInWasm {
  const { body, text, fail, found, own, readOf, constantOf, kindOf, both, isNothing, declare, block } = loopText(engine)
  let code: number[] = []
  const put = (...bytes: readonly number[]) => {
    for (const byte of bytes) code.push(byte)
  }

  // Locals: those of a block are used again after it.
  const types: number[] = []
  const free = new Map<number, number[]>()
  let mine: [type: number, at: number][] = []
  function local(type: number): number {
    const at = free.get(type)?.pop() ?? types.push(type) + 1
    mine.push([type, at])
    return at
  }
  function within<T>(inside: () => T): T {
    const outside = mine
    mine = []
    const made = block(inside)
    for (const [type, at] of mine) free.set(type, [...(free.get(type) ?? []), at])
    mine = outside
    return made
  }

  // What is read of the engine stands in the memory in the order in which it is met, and is read from there where it is needed: a hundred locals would only push
  // each other out of the processor. What the innermost loops read has a local.
  const places = new Map<Read, number>()
  const locals = new Map<Read, number>()
  const written = new Set<Read>()
  function fromMemory(read: Read): void {
    if (!places.has(read)) places.set(read, READS_AT + places.size * 8)
    const whole = typeof read.value === 'object' || read.kind === 'int'
    number(0, 'int')
    put(whole ? OP.i32Load : OP.f64Load, whole ? 2 : 3, ...unsigned(places.get(read)!))
  }
  function read(of: Read): void {
    if (!INNERMOST.has(of.path)) {
      fromMemory(of)
      return
    }
    if (!locals.has(of)) locals.set(of, types.push(TYPE.int) + 1)
    put(OP.get, ...unsigned(locals.get(of)!))
  }

  // Blocks that a `br` counts.
  const open: ('break' | 'continue' | 'other')[] = []
  function nested(op: number, is: 'break' | 'continue' | 'other', inside: () => void, gives: number = TYPE.none): void {
    put(op, gives)
    open.push(is)
    inside()
    open.pop()
    put(OP.end)
  }
  const depthOf = (is: 'break' | 'continue') => unsigned(open.length - 1 - open.lastIndexOf(is))

  const faults: { code: string; told: string[] }[] = []

  const number = (value: number, want: Kind) =>
    want === 'int' ? put(OP.i32Const, ...signed(value)) : put(OP.f64Const, ...double(value))
  const turned = (kind: Kind, want: Kind, node: ts.Expression) => {
    if (kind === 'int' && want === 'double') put(OP.f64ConvertI32S)
    else if (kind !== want) fail(node, 'is no whole number')
  }

  function sumOf(node: ts.Expression): Sum {
    const at = bare(node)
    const constant = constantOf(at)
    if (constant !== undefined) return { parts: [], more: constant }
    if (ts.isBinaryExpression(at)) {
      const sign = text(at.operatorToken)
      if (sign === '+') {
        const [one, other] = [sumOf(at.left), sumOf(at.right)]
        return { parts: [...one.parts, ...other.parts], more: one.more + other.more }
      }
      const times = sign === '*' ? (constantOf(at.right) ?? undefined) : undefined
      if (times !== undefined) {
        const { parts, more } = sumOf(at.left)
        return { parts: parts.map((one) => ({ ...one, times: one.times * times })), more: more * times }
      }
    }
    return { parts: [{ node: at, times: 1 }], more: 0 }
  }

  /** Puts where an element stands; gives what the reading or writing adds to it. */
  function address(node: ts.ElementAccessExpression): { readonly list: List; readonly more: number; readonly of: Read } {
    const of = readOf(node.expression)
    const list = found(node.expression) as List
    const wide = list.BYTES_PER_ELEMENT
    const { parts, more } = sumOf(node.argumentExpression)
    read(of)
    for (const { node: part, times } of parts) {
      if (kindOf(part) === 'int') expression(part, 'int')
      else {
        expression(part, 'double')
        put(...I32_TRUNC_SAT_F64_S)
      }
      const bytes = times * wide
      if (bytes !== 1) {
        const shift = Math.log2(bytes)
        put(OP.i32Const, ...signed(Number.isInteger(shift) ? shift : bytes), Number.isInteger(shift) ? OP.i32Shl : OP.i32Mul)
      }
      put(OP.i32Add)
    }
    if (more < 0) put(OP.i32Const, ...signed(more * wide), OP.i32Add)
    return { list, of, more: more < 0 ? 0 : more * wide }
  }
  const atElement = (list: List, more: number, doubles: number, ints: number, bytes: number) => {
    const op = list instanceof Float64Array ? doubles : list instanceof Int32Array ? ints : bytes
    put(op, Math.log2(list.BYTES_PER_ELEMENT), ...unsigned(more))
  }

  /** Costs no more than asking whether it is needed. */
  function cheap(node: ts.Expression): boolean {
    const at = bare(node)
    if (constantOf(at) !== undefined || ts.isIdentifier(at)) return true
    if (ts.isPrefixUnaryExpression(at)) return cheap(at.operand)
    return (
      ts.isBinaryExpression(at) && !isNothing(at.right) && text(at.operatorToken) in COMPARED && cheap(at.left) && cheap(at.right)
    )
  }

  function expression(node: ts.Expression, want: Kind): void {
    const at = bare(node)
    const constant = constantOf(at)
    if (constant !== undefined) {
      number(constant, want)
      return
    }
    if (ts.isConditionalExpression(at)) {
      either(at, want)
      return
    }
    if (ts.isIdentifier(at) || ts.isPropertyAccessExpression(at)) {
      const name = ts.isIdentifier(at) ? own(at.text) : undefined
      if (name?.at === undefined) read(readOf(at))
      else put(OP.get, ...unsigned(name.at))
    } else if (ts.isElementAccessExpression(at)) {
      const { list, more } = address(at)
      atElement(list, more, OP.f64Load, OP.i32Load, OP.i32Load8U)
    } else if (ts.isPrefixUnaryExpression(at)) {
      if (at.operator === ts.SyntaxKind.ExclamationToken) {
        expression(at.operand, 'int')
        put(OP.i32Eqz)
      } else if (at.operator !== ts.SyntaxKind.MinusToken) fail(at)
      else {
        expression(at.operand, 'double')
        put(OP.f64Neg)
        if (want === 'int') fail(at)
        return
      }
    } else if (ts.isCallExpression(at)) called(at)
    else if (ts.isBinaryExpression(at)) binary(at)
    else fail(at)
    turned(kindOf(at), want, at)
  }

  function either(at: ts.ConditionalExpression, want: Kind): void {
    // x < 0 ? −x : x is |x| but for the sign of nothing, which no sum of the loop shows.
    const { condition: asked, whenTrue, whenFalse } = at
    const size =
      ts.isBinaryExpression(asked) &&
      text(asked.operatorToken) === '<' &&
      constantOf(asked.right) === 0 &&
      text(asked.left) === text(whenFalse) &&
      text(whenTrue) === `-${text(whenFalse)}`
    if (size && want === 'double') {
      expression(whenFalse, 'double')
      put(OP.f64Abs)
      return
    }
    expression(asked, 'int')
    // An answer is 1 or 0 by itself.
    if (want === 'int' && constantOf(whenTrue) === 1 && constantOf(whenFalse) === 0) return
    nested(
      OP.if,
      'other',
      () => {
        expression(whenTrue, want)
        put(OP.else)
        expression(whenFalse, want)
      },
      TYPE[want],
    )
  }

  function called(at: ts.CallExpression): void {
    const name = text(at.expression)
    const args = at.arguments
    if (name === 'cubeRootFast') {
      cubeRoot(args[0]!)
      return
    }
    for (const one of args) expression(one, 'double')
    if (name in OF_ONE) put(OF_ONE[name]!)
    else if (name in OF_TWO) put(OF_TWO[name]!)
    else if (name === 'powerOf') put(OP.call, 0)
    else if (name === 'film0') {
      number(0, 'double')
      put(OP.f64Max)
    } else fail(at)
  }

  /** `cubeRootFast` of `fast.ts`: the same steps. */
  function cubeRoot(of: ts.Expression): void {
    const [x, y, c] = [local(TYPE.double), local(TYPE.double), local(TYPE.double)].map((place) => unsigned(place)) as [
      number[],
      number[],
      number[],
    ]
    const halley = () => {
      put(OP.get, ...y, OP.get, ...y, OP.f64Mul, OP.get, ...y, OP.f64Mul, OP.set, ...c)
      put(OP.get, ...y, OP.get, ...c, OP.get, ...x, OP.f64Add, OP.get, ...x, OP.f64Add, OP.f64Mul)
      put(OP.get, ...c, OP.get, ...c, OP.f64Add, OP.get, ...x, OP.f64Add, OP.f64Div)
    }
    expression(of, 'double')
    put(OP.tee, ...x)
    number(1e-12, 'double')
    put(COMPARED['>']![1])
    nested(
      OP.if,
      'other',
      () => {
        put(OP.get, ...x, OP.i64ReinterpretF64, OP.i64Const, ...signed(32), OP.i64ShrU, OP.i32WrapI64, OP.f64ConvertI32U)
        number(0.3333333333333333, 'double')
        put(OP.f64Mul, OP.i32TruncF64S)
        number(THIRD_BIAS, 'int')
        put(OP.i32Add, OP.i64ExtendI32U, OP.i64Const, ...signed(32), OP.i64Shl)
        put(
          OP.get,
          ...x,
          OP.i64ReinterpretF64,
          OP.i64Const,
          ...signed(0xffffffff),
          OP.i64And,
          OP.i64Or,
          OP.f64ReinterpretI64,
          OP.set,
          ...y,
        )
        halley()
        put(OP.set, ...y)
        halley()
        put(OP.else)
        number(0, 'double')
      },
      TYPE.double,
    )
  }

  function binary(at: ts.BinaryExpression): void {
    const sign = text(at.operatorToken)
    const { left, right } = at
    if (sign === '=') {
      assigned(left, right, true)
      return
    }
    if (isNothing(right)) {
      read(readOf(left, true))
      if (sign === '===') put(OP.i32Eqz)
    } else if (sign === '&&' || sign === '||') {
      expression(left, 'int')
      if (cheap(right)) {
        expression(right, 'int')
        put(sign === '&&' ? OP.i32And : OP.i32Or)
        return
      }
      nested(
        OP.if,
        'other',
        () => {
          if (sign === '&&') expression(right, 'int')
          else number(1, 'int')
          put(OP.else)
          if (sign === '&&') number(0, 'int')
          else expression(right, 'int')
        },
        TYPE.int,
      )
    } else if (sign === '|') {
      if (constantOf(right) !== 0) fail(at)
      expression(left, kindOf(left))
      if (kindOf(left) === 'double') put(...I32_TRUNC_SAT_F64_S)
    } else {
      const kind = sign !== '/' && both(left, right) ? 'int' : 'double'
      const op = (COMPARED[sign] ?? ARITHMETIC[sign])?.[kind === 'int' ? 0 : 1]
      if (op === undefined || op === null) fail(at)
      else {
        expression(left, kind)
        expression(right, kind)
        put(op)
      }
    }
  }

  /** `kept`: what is assigned is a value too. */
  function assigned(to: ts.Expression, value: ts.Expression, kept: boolean, op?: string): void {
    const at = bare(to)
    if (ts.isElementAccessExpression(at)) {
      if (kept || op !== undefined) fail(at)
      const { list, more, of } = address(at)
      written.add(of)
      expression(value, list instanceof Float64Array ? 'double' : 'int')
      atElement(list, more, OP.f64Store, OP.i32Store, OP.i32Store8)
      return
    }
    const name = ts.isIdentifier(at) ? own(at.text) : undefined
    if (name?.at === undefined) throw fail(at)
    if (op !== undefined) put(OP.get, ...unsigned(name.at))
    expression(value, name.kind)
    const with2 = op === undefined ? undefined : ARITHMETIC[op]?.[name.kind === 'int' ? 0 : 1]
    if (op !== undefined && (with2 === undefined || with2 === null)) throw fail(at)
    if (with2 !== undefined && with2 !== null) put(with2)
    put(kept ? OP.tee : OP.set, ...unsigned(name.at))
  }

  function act(node: ts.Expression): void {
    const at = bare(node)
    if (ts.isBinaryExpression(at)) {
      const sign = text(at.operatorToken)
      if (!/^[-+*/]?=$/.test(sign)) fail(at)
      assigned(at.left, at.right, false, sign === '=' ? undefined : sign.slice(0, 1))
    } else if (ts.isPostfixUnaryExpression(at)) {
      const name = ts.isIdentifier(at.operand) ? own(at.operand.text) : undefined
      if (name?.at === undefined) throw fail(at)
      put(OP.get, ...unsigned(name.at))
      number(1, name.kind)
      const sign = at.operator === ts.SyntaxKind.PlusPlusToken ? '+' : '-'
      put(ARITHMETIC[sign]![name.kind === 'int' ? 0 : 1]!, OP.set, ...unsigned(name.at))
    } else fail(at)
  }

  function statement(node: ts.Statement): void {
    if (ts.isBlock(node)) within(() => node.statements.forEach(statement))
    else if (ts.isVariableStatement(node)) declared(node.declarationList, 'double')
    else if (ts.isExpressionStatement(node)) act(node.expression)
    else if (ts.isIfStatement(node)) {
      expression(node.expression, 'int')
      nested(OP.if, 'other', () => {
        within(() => statement(node.thenStatement))
        if (node.elseStatement === undefined) return
        put(OP.else)
        within(() => statement(node.elseStatement!))
      })
    } else if (ts.isForStatement(node)) {
      const first = node.initializer
      if (first === undefined || !ts.isVariableDeclarationList(first)) throw fail(node)
      within(() => {
        declared(first, 'int')
        loop(node.condition!, node.statement, () => act(node.incrementor!))
      })
    } else if (ts.isWhileStatement(node)) loop(node.expression, node.statement, () => {})
    else if (ts.isBreakStatement(node)) put(OP.br, ...depthOf('break'))
    else if (ts.isContinueStatement(node)) put(OP.br, ...depthOf('continue'))
    else if (ts.isThrowStatement(node)) thrown(node)
    else fail(node)
  }

  function loop(condition: ts.Expression, inside: ts.Statement, after: () => void): void {
    nested(OP.block, 'break', () =>
      nested(OP.loop, 'other', () => {
        expression(condition, 'int')
        put(OP.i32Eqz, OP.brIf, 1)
        nested(OP.block, 'continue', () => within(() => statement(inside)))
        after()
        put(OP.br, 0)
      }),
    )
  }

  function thrown(node: ts.ThrowStatement): void {
    const made = node.expression
    if (made === undefined || !ts.isNewExpression(made)) throw fail(node)
    const [what, details] = made.arguments ?? []
    if (what === undefined || !ts.isStringLiteral(what) || details === undefined || !ts.isObjectLiteralExpression(details))
      throw fail(node)
    const told: string[] = []
    for (const one of details.properties) {
      const value = ts.isPropertyAssignment(one) ? one.initializer : ts.isShorthandPropertyAssignment(one) ? one.name : fail(one)
      number(0, 'int')
      expression(value, 'double')
      put(OP.f64Store, 3, ...unsigned(told.length * 8))
      told.push(text(one.name!))
    }
    number(faults.push({ code: what.text, told }), 'int')
    put(OP.return)
  }

  /** Arrays and numbers of the engine, taken apart at the beginning of the loop, are read when they are first met. */
  function declared(list: ts.VariableDeclarationList, whole: Kind): void {
    for (const { name, initializer } of list.declarations) {
      if (!ts.isIdentifier(name)) continue
      const kind = initializer === undefined ? 'double' : kindOf(initializer, whole)
      if (initializer !== undefined) expression(initializer, kind)
      const at = local(TYPE[kind])
      declare(name.text, { kind, at })
      if (initializer !== undefined) put(OP.set, ...unsigned(at))
    }
  }

  declare('from', { kind: 'int', at: 0 })
  declare('to', { kind: 'int', at: 1 })
  statement(body)
  number(0, 'int')
  put(OP.end)
  const main = code
  code = []
  for (const [of, at] of locals) {
    fromMemory(of)
    put(OP.set, ...unsigned(at))
  }
  return {
    bytes: moduleOf(types, [...code, ...main], 'powerOf'),
    reads: [...places.keys()].map((of) => ({ path: of.asked ? `${of.path}?` : of.path, as: asOf(of), written: written.has(of) })),
    faults,
  }
}
