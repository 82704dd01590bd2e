import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'
import * as fast from '../packages/engine/src/air/year/fast.ts'
import * as loop from '../packages/engine/src/air/year/kernel.ts'
import * as wood from '../packages/engine/src/air/year/wood.ts'

/**
 * The loop of `packages/engine/src/air/year/kernel.ts`, statement for statement in C, so that the twin never stays behind the loop it is measured against.
 * Knows the few kinds of statement that a loop over arrays needs, and throws on any other.
 */

type Kind = 'int' | 'double'
export type Value = number | boolean | Float64Array | Int32Array | Uint8Array
export interface LoopInC {
  readonly c: string
  /** What the program reads, in its order. */
  readonly values: readonly (readonly [name: string, value: Value])[]
}

const KERNEL = fileURLToPath(new URL('../packages/engine/src/air/year/kernel.ts', import.meta.url))
const TABLES: Readonly<Record<string, unknown>> = { ...fast, ...wood }
/** Called by the loop and written in C by hand, in `c/year.c`. */
const BY_HAND: Readonly<Record<string, string>> = {
  'Math.sqrt': 'sqrt',
  'Math.abs': 'fabs',
  'Math.max': 'most',
  'Math.min': 'least',
  cubeRootFast: 'cubeRootFast',
  powerOf: 'pow',
  film0: 'film0',
}
const SAME: Readonly<Record<string, string>> = { '===': '==', '!==': '!=' }

const bare = (node: ts.Expression): ts.Expression =>
  ts.isNonNullExpression(node) || ts.isParenthesizedExpression(node) || ts.isAsExpression(node) ? bare(node.expression) : node

/** @throws Error on a statement that it does not know */
export function loopInC(engine: object): LoopInC {
  const source = ts.createSourceFile(KERNEL, readFileSync(KERNEL, 'utf8'), ts.ScriptTarget.Latest, true)
  const values = new Map<string, Value>()
  const kinds = new Map<string, Kind>()
  /** What the names of the block that is written meant outside of it. */
  let here = new Map<string, Kind | undefined>()
  const heads: string[] = []
  const text = (node: ts.Node): string => node.getText(source)
  const fail = (node: ts.Node): never => {
    const { line } = source.getLineAndCharacterOfPosition(node.getStart(source))
    throw new Error(`kernel.ts:${line + 1}: no C for ${ts.SyntaxKind[node.kind]}: ${text(node).slice(0, 60)}`)
  }

  /** Where a name or `a.b.c` leads in the engine or in the tables; undefined where the chain breaks off. */
  function found(node: ts.Expression): unknown {
    const at = bare(node)
    if (ts.isIdentifier(at)) return at.text in TABLES ? TABLES[at.text] : (engine as Record<string, unknown>)[at.text]
    if (!ts.isPropertyAccessExpression(at)) return undefined
    const of = found(at.expression)
    return of === null || of === undefined ? undefined : (of as Record<string, unknown>)[at.name.text]
  }
  const nameOf = (node: ts.Expression): string => text(bare(node)).replaceAll(/\W+/g, '_')
  function told(name: string, value: unknown): string {
    if (kinds.has(name)) return name
    const plain = value === undefined || value === null ? Number.NaN : (value as Value)
    values.set(name, plain)
    kinds.set(name, typeof plain === 'boolean' || Number.isInteger(plain) ? 'int' : 'double')
    return name
  }

  function kindOf(node: ts.Expression, whole: Kind = 'int'): Kind {
    const at = bare(node)
    if (ts.isNumericLiteral(at)) return Number.isInteger(Number(at.text)) ? whole : 'double'
    if (at.kind === ts.SyntaxKind.TrueKeyword || at.kind === ts.SyntaxKind.FalseKeyword) return 'int'
    if (ts.isIdentifier(at)) return kinds.get(at.text) ?? 'double'
    if (ts.isPropertyAccessExpression(at)) return kinds.get(nameOf(at)) ?? 'double'
    if (ts.isElementAccessExpression(at)) return found(at.expression) instanceof Float64Array ? 'double' : 'int'
    if (ts.isPrefixUnaryExpression(at)) return at.operator === ts.SyntaxKind.ExclamationToken ? 'int' : kindOf(at.operand, whole)
    if (ts.isConditionalExpression(at)) return both(at.whenTrue, at.whenFalse) ? 'int' : 'double'
    if (!ts.isBinaryExpression(at)) return 'double'
    const sign = text(at.operatorToken)
    if (/^(\||>>|&|%|[=!]==|[<>]=?|&&|\|\|)$/.test(sign)) return 'int'
    return /^[-+*]$/.test(sign) && both(at.left, at.right) ? 'int' : 'double'
  }
  const both = (one: ts.Expression, other: ts.Expression) => kindOf(one) === 'int' && kindOf(other) === 'int'
  const isNothing = (node: ts.Expression) => node.kind === ts.SyntaxKind.NullKeyword || text(node) === 'undefined'

  function expression(node: ts.Expression): string {
    if (ts.isParenthesizedExpression(node)) return `(${expression(node.expression)})`
    if (ts.isNonNullExpression(node)) return expression(node.expression)
    if (ts.isNumericLiteral(node)) return text(node).replaceAll('_', '')
    if (node.kind === ts.SyntaxKind.TrueKeyword) return '1'
    if (node.kind === ts.SyntaxKind.FalseKeyword) return '0'
    if (ts.isIdentifier(node) || ts.isPropertyAccessExpression(node)) {
      const name = nameOf(node)
      const value = kinds.has(name) ? undefined : found(node)
      return kinds.has(name) || value !== undefined || ts.isPropertyAccessExpression(node) ? told(name, value) : fail(node)
    }
    if (ts.isElementAccessExpression(node)) {
      const list = expression(bare(node.expression))
      const index = expression(node.argumentExpression)
      return `${list}[${kindOf(node.argumentExpression) === 'int' ? index : `(int)(${index})`}]`
    }
    if (ts.isPrefixUnaryExpression(node)) return `${ts.tokenToString(node.operator)}${expression(node.operand)}`
    if (ts.isPostfixUnaryExpression(node)) return `${expression(node.operand)}${ts.tokenToString(node.operator)}`
    if (ts.isConditionalExpression(node))
      return `(${expression(node.condition)} ? ${expression(node.whenTrue)} : ${expression(node.whenFalse)})`
    if (ts.isCallExpression(node)) {
      const called = BY_HAND[text(node.expression)]
      return called === undefined ? fail(node) : `${called}(${node.arguments.map(expression).join(', ')})`
    }
    if (!ts.isBinaryExpression(node)) return fail(node)
    const sign = text(node.operatorToken)
    if (isNothing(node.right)) {
      const value = found(node.left)
      const there = told(`${nameOf(node.left)}_there`, value !== null && value !== undefined)
      return sign === '!==' ? there : `!${there}`
    }
    const [left, right] = [expression(node.left), expression(node.right)]
    if (sign === '/') return both(node.left, node.right) ? `(double)${left} / ${right}` : `${left} / ${right}`
    if (sign === '|') return `(int)(${left})`
    return `${left} ${SAME[sign] ?? sign} ${right}`
  }

  function statement(node: ts.Statement): string {
    if (ts.isBlock(node)) {
      const outside = here
      here = new Map()
      const inside = node.statements.map(statement).join('\n')
      for (const [name, kind] of here) kind === undefined ? kinds.delete(name) : kinds.set(name, kind)
      here = outside
      return `{\n${inside}\n}`
    }
    if (ts.isVariableStatement(node)) return declared(node.declarationList, 'double')
    if (ts.isExpressionStatement(node)) return `${expression(node.expression)};`
    if (ts.isIfStatement(node)) {
      const other = node.elseStatement === undefined ? '' : ` else ${statement(node.elseStatement)}`
      return `if (${expression(node.expression)}) ${statement(node.thenStatement)}${other}`
    }
    if (ts.isForStatement(node)) {
      const first = node.initializer
      if (first === undefined || !ts.isVariableDeclarationList(first)) return fail(node)
      return `for (${declared(first, 'int')} ${expression(node.condition!)}; ${expression(node.incrementor!)}) ${statement(node.statement)}`
    }
    if (ts.isWhileStatement(node)) return `while (${expression(node.expression)}) ${statement(node.statement)}`
    if (ts.isBreakStatement(node)) return 'break;'
    if (ts.isContinueStatement(node)) return 'continue;'
    if (ts.isThrowStatement(node)) return 'exit(3);'
    return fail(node)
  }

  /** Arrays and numbers of the engine, taken apart at the beginning of the loop, are read when they are first met. */
  function declared(list: ts.VariableDeclarationList, whole: Kind): string {
    return list.declarations
      .map((one) => {
        if (!ts.isIdentifier(one.name)) return ''
        const name = one.name.text
        const value = one.initializer === undefined ? '' : ` = ${expression(one.initializer)}`
        const kind = one.initializer === undefined ? 'double' : kindOf(one.initializer, whole)
        if (!here.has(name)) here.set(name, kinds.get(name))
        kinds.set(name, kind)
        return `${kind} ${name}${value};`
      })
      .join(' ')
  }

  kinds.set('from', 'int')
  kinds.set('to', 'int')
  let body = ''
  for (const node of source.statements) {
    if (ts.isFunctionDeclaration(node) && node.name?.text === 'advance') body = statement(node.body!)
    else if (ts.isVariableStatement(node))
      for (const { name, initializer } of node.declarationList.declarations) {
        const called = text(name)
        if (initializer === undefined || called in BY_HAND || called === 'PLACE') continue
        const given = (loop as Readonly<Record<string, unknown>>)[called]
        const own = typeof given === 'number' ? String(given) : expression(initializer).replace('Math_SQRT1_2', 'M_SQRT1_2')
        kinds.set(called, kindOf(initializer))
        heads.push(`#define ${called} (${own})`)
      }
  }
  const read = [...values].filter(([name]) => name !== 'Math_SQRT1_2')
  return {
    c: `${heads.join('\n')}\n${given(read)}\nstatic void advance(int from, int to) {\n${names(read)}\n${body.slice(1)}\n`,
    values: read,
  }
}

const typeOf = (value: Value): string =>
  value instanceof Float64Array
    ? 'double *'
    : value instanceof Int32Array
      ? 'int *'
      : value instanceof Uint8Array
        ? 'unsigned char *'
        : typeof value === 'boolean' || Number.isInteger(value)
          ? 'int '
          : 'double '

/** Where each value stands in the program, and how it is read. */
const given = (values: LoopInC['values']): string =>
  [
    'static struct {',
    ...values.map(([name, value]) => `${typeOf(value)}${name};`),
    '} in;',
    'static void readAll(void) {',
    ...values.map(([name, value]) =>
      typeof value === 'object' ? `in.${name} = list(sizeof *in.${name});` : `in.${name} = number();`,
    ),
    '}',
  ].join('\n')

const names = (values: LoopInC['values']): string =>
  values
    .map(([name, value]) => `${typeOf(value)}${typeof value === 'object' ? 'restrict ' : ''}const ${name} = in.${name};`)
    .join('\n')

/** Numbers as eight bytes each; a list with its length before it, in the width of its elements. */
export function bytesOf(values: LoopInC['values']): Buffer {
  return Buffer.concat(
    values.flatMap(([, value]) =>
      typeof value === 'object'
        ? [Buffer.from(Float64Array.of(value.length).buffer), Buffer.from(value.buffer, value.byteOffset, value.byteLength)]
        : [Buffer.from(Float64Array.of(Number(value)).buffer)],
    ),
  )
}
