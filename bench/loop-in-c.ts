import ts from 'typescript'
import { type BY_HAND, bare, type Kind, loopText, type Read, type Value } from '../scripts/loop/text.ts'

/**
 * The loop of `packages/engine/src/air/year/kernel.ts`, statement for statement in C, so that the twin never stays behind the loop it is measured against.
 * Knows the few kinds of statement that a loop over arrays needs, and throws on any other.
 */

export interface LoopInC {
  readonly c: string
  /** What the program reads, in its order. */
  readonly values: readonly (readonly [name: string, value: Value, kind: Kind])[]
}

/** Called by the loop and written in C by hand, in `c/year.c`. */
const IN_C: Readonly<Record<(typeof BY_HAND)[number], string>> = {
  'Math.sqrt': 'sqrt',
  'Math.abs': 'fabs',
  'Math.max': 'most',
  'Math.min': 'least',
  cubeRootFast: 'cubeRootFast',
  powerOf: 'pow',
  film0: 'film0',
}
const SAME: Readonly<Record<string, string>> = { '===': '==', '!==': '!=' }
const inC = ({ path, asked }: Read): string => `${path.replaceAll('.', '_')}${asked ? '_there' : ''}`

/** @throws Error on a statement that it does not know */
export function loopInC(engine: object): LoopInC {
  const { body, constants, reads, text, fail, own, readOf, constantOf, kindOf, both, isNothing, declare, block } =
    loopText(engine)

  function expression(node: ts.Expression): string {
    if (ts.isParenthesizedExpression(node)) return `(${expression(node.expression)})`
    if (ts.isNonNullExpression(node)) return expression(node.expression)
    if (ts.isNumericLiteral(node)) return text(node).replaceAll('_', '')
    if (node.kind === ts.SyntaxKind.TrueKeyword) return '1'
    if (node.kind === ts.SyntaxKind.FalseKeyword) return '0'
    if (ts.isIdentifier(node) && (own(node.text) !== undefined || constants.has(node.text))) return node.text
    if (ts.isIdentifier(node) || ts.isPropertyAccessExpression(node)) {
      const constant = constantOf(node)
      return constant === undefined ? inC(readOf(node)) : `${constant}`
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
      const called = (IN_C as Readonly<Record<string, string>>)[text(node.expression)]
      return called === undefined ? fail(node) : `${called}(${node.arguments.map(expression).join(', ')})`
    }
    if (!ts.isBinaryExpression(node)) return fail(node)
    const sign = text(node.operatorToken)
    if (isNothing(node.right)) {
      const there = inC(readOf(node.left, true))
      return sign === '!==' ? there : `!${there}`
    }
    const [left, right] = [expression(node.left), expression(node.right)]
    if (sign === '/') return both(node.left, node.right) ? `(double)${left} / ${right}` : `${left} / ${right}`
    if (sign === '|') return `(int)(${left})`
    return `${left} ${SAME[sign] ?? sign} ${right}`
  }

  function statement(node: ts.Statement): string {
    if (ts.isBlock(node)) return block(() => `{\n${node.statements.map(statement).join('\n')}\n}`)
    if (ts.isVariableStatement(node)) return declared(node.declarationList, 'double')
    if (ts.isExpressionStatement(node)) return `${expression(node.expression)};`
    if (ts.isIfStatement(node)) {
      const other = node.elseStatement === undefined ? '' : ` else ${statement(node.elseStatement)}`
      return `if (${expression(node.expression)}) ${statement(node.thenStatement)}${other}`
    }
    if (ts.isForStatement(node)) {
      const first = node.initializer
      if (first === undefined || !ts.isVariableDeclarationList(first)) return fail(node)
      return block(
        () =>
          `for (${declared(first, 'int')} ${expression(node.condition!)}; ${expression(node.incrementor!)}) ${statement(node.statement)}`,
      )
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
        declare(name, { kind })
        return `${kind} ${name}${value};`
      })
      .join(' ')
  }

  declare('from', { kind: 'int' })
  declare('to', { kind: 'int' })
  const inside = statement(body)
  const values = [...reads.values()].map((read) => [inC(read), read.value, read.kind] as const)
  const heads = [...constants].map(([name, value]) => `#define ${name} (${value})`)
  return {
    c: `${heads.join('\n')}\n${given(values)}\nstatic void advance(int from, int to) {\n${names(values)}\n${inside.slice(1)}\n`,
    values,
  }
}

const typeOf = (value: Value, kind: Kind): string =>
  value instanceof Float64Array
    ? 'double *'
    : value instanceof Int32Array
      ? 'int *'
      : value instanceof Uint8Array
        ? 'unsigned char *'
        : kind === 'int'
          ? 'int '
          : 'double '

/** Where each value stands in the program, and how it is read. */
const given = (values: LoopInC['values']): string =>
  [
    'static struct {',
    ...values.map(([name, value, kind]) => `${typeOf(value, kind)}${name};`),
    '} in;',
    'static void readAll(void) {',
    ...values.map(([name, value]) =>
      typeof value === 'object' ? `in.${name} = list(sizeof *in.${name});` : `in.${name} = number();`,
    ),
    '}',
  ].join('\n')

const names = (values: LoopInC['values']): string =>
  values
    .map(
      ([name, value, kind]) => `${typeOf(value, kind)}${typeof value === 'object' ? 'restrict ' : ''}const ${name} = in.${name};`,
    )
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
