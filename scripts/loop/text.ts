import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'
import * as fast from '../../packages/engine/src/air/year/fast.ts'
import * as loop from '../../packages/engine/src/air/year/kernel.ts'
import * as wood from '../../packages/engine/src/air/year/wood.ts'

/**
 * The text of `packages/engine/src/air/year/kernel.ts` as its two translations read it, to C for the bench and to WebAssembly for the program: which names
 * there are, where they lead in the engine, and which of them are whole numbers.
 */

export type Kind = 'int' | 'double'
export type List = Float64Array | Int32Array | Uint8Array
export type Value = number | boolean | List
/** What the loop reads of the engine, or of the tables. */
export interface Read {
  /** Where it stands: `fan.solar.startsAtFrac`. */
  readonly path: string
  readonly value: Value
  readonly kind: Kind
  /** Told is whether something stands there at all. */
  readonly asked: boolean
}

const KERNEL = fileURLToPath(new URL('../../packages/engine/src/air/year/kernel.ts', import.meta.url))
const TABLES: Readonly<Record<string, unknown>> = { ...fast, ...wood }
/** Counts and places among the engine's numbers; all others are read as doubles, whole or not. */
const WHOLE = new Set(['N', 'P', 'S', 'firstCrack', 'floor', 'gear', 'gearInner', 'holes', 'stepsCount', 'stepsPerHour'])
/** Functions that both translations write by hand. */
export const BY_HAND = ['Math.sqrt', 'Math.abs', 'Math.max', 'Math.min', 'cubeRootFast', 'powerOf', 'film0'] as const

export const bare = (node: ts.Expression): ts.Expression =>
  ts.isNonNullExpression(node) || ts.isParenthesizedExpression(node) || ts.isAsExpression(node) ? bare(node.expression) : node

/** A name of the loop's own. */
export interface Name {
  readonly kind: Kind
  /** Its local, where a translation counts them. */
  readonly at?: number
}

export type LoopText = ReturnType<typeof loopText>

/** @param engine any engine of the program: the kinds of its arrays are the same in all */
export function loopText(engine: object) {
  const source = ts.createSourceFile(KERNEL, readFileSync(KERNEL, 'utf8'), ts.ScriptTarget.Latest, true)
  const names: Map<string, Name>[] = [new Map()]
  const reads = new Map<string, Read>()
  const constants = new Map<string, number>()
  const text = (node: ts.Node): string => node.getText(source)
  const fail = (node: ts.Node, why = 'not known'): never => {
    const { line } = source.getLineAndCharacterOfPosition(node.getStart(source))
    throw new Error(`kernel.ts:${line + 1}: ${ts.SyntaxKind[node.kind]} ${why}: ${text(node).slice(0, 60)}`)
  }

  /** Where a name or `a.b.c` leads in the engine or in the tables; undefined where the chain breaks off. */
  function found(node: ts.Expression): unknown {
    const at = bare(node)
    if (ts.isIdentifier(at)) return at.text in TABLES ? TABLES[at.text] : (engine as Record<string, unknown>)[at.text]
    if (!ts.isPropertyAccessExpression(at)) return undefined
    const of = found(at.expression)
    return of === null || of === undefined ? undefined : (of as Record<string, unknown>)[at.name.text]
  }
  const pathOf = (node: ts.Expression): string => text(bare(node)).replaceAll(/[^\w.]/g, '')
  const own = (name: string): Name | undefined => names.findLast((block) => block.has(name))?.get(name)

  /** What stands behind a name that is not the loop's own. */
  function readOf(node: ts.Expression, asked = false): Read {
    const path = pathOf(node)
    const key = asked ? `${path}?` : path
    const there = reads.get(key)
    if (there !== undefined) return there
    const value = found(node)
    const missing = value === undefined || value === null
    if (missing && !asked && ts.isIdentifier(bare(node))) return fail(node)
    const kind = asked || typeof value === 'boolean' || WHOLE.has(path) ? 'int' : 'double'
    const read = { path, asked, kind, value: asked ? !missing : missing ? Number.NaN : (value as Value) } as const
    reads.set(key, read)
    return read
  }

  /** A number that stands in the text, or is made of such. */
  function constantOf(node: ts.Expression): number | undefined {
    const at = bare(node)
    if (ts.isNumericLiteral(at)) return Number(at.text)
    if (at.kind === ts.SyntaxKind.TrueKeyword) return 1
    if (at.kind === ts.SyntaxKind.FalseKeyword) return 0
    if (ts.isIdentifier(at)) {
      if (own(at.text) !== undefined) return undefined
      const table = TABLES[at.text]
      return constants.get(at.text) ?? (typeof table === 'number' ? table : undefined)
    }
    if (text(at) === 'Math.SQRT1_2') return Math.SQRT1_2
    if (ts.isPrefixUnaryExpression(at) && at.operator === ts.SyntaxKind.MinusToken) {
      const value = constantOf(at.operand)
      return value === undefined ? undefined : -value
    }
    if (!ts.isBinaryExpression(at)) return undefined
    const left = constantOf(at.left)
    const right = constantOf(at.right)
    if (left === undefined || right === undefined) return undefined
    const sign = text(at.operatorToken)
    return sign === '+'
      ? left + right
      : sign === '-'
        ? left - right
        : sign === '*'
          ? left * right
          : sign === '/'
            ? left / right
            : undefined
  }

  /** `whole`: what a whole number in the text is taken for. */
  function kindOf(node: ts.Expression, whole: Kind = 'int'): Kind {
    const at = bare(node)
    if (ts.isNumericLiteral(at)) return Number.isInteger(Number(at.text)) ? whole : 'double'
    if (at.kind === ts.SyntaxKind.TrueKeyword || at.kind === ts.SyntaxKind.FalseKeyword) return 'int'
    if (ts.isIdentifier(at)) {
      const constant = constantOf(at)
      return constant === undefined ? (own(at.text) ?? readOf(at)).kind : Number.isInteger(constant) ? 'int' : 'double'
    }
    if (ts.isPropertyAccessExpression(at)) return readOf(at).kind
    if (ts.isElementAccessExpression(at)) return found(at.expression) instanceof Float64Array ? 'double' : 'int'
    if (ts.isPrefixUnaryExpression(at)) return at.operator === ts.SyntaxKind.ExclamationToken ? 'int' : kindOf(at.operand, whole)
    if (ts.isConditionalExpression(at)) return both(at.whenTrue, at.whenFalse) ? 'int' : 'double'
    if (!ts.isBinaryExpression(at)) return 'double'
    const sign = text(at.operatorToken)
    if (/^(\||>>|&|%|[=!]==|[<>]=?|&&|\|\|)$/.test(sign)) return 'int'
    return /^[-+*]$/.test(sign) && both(at.left, at.right) ? 'int' : 'double'
  }
  const both = (one: ts.Expression, other: ts.Expression) => kindOf(one) === 'int' && kindOf(other) === 'int'

  let body: ts.Block | undefined
  for (const node of source.statements) {
    if (ts.isFunctionDeclaration(node) && node.name?.text === 'advance') body = node.body
    else if (ts.isVariableStatement(node))
      for (const { name, initializer } of node.declarationList.declarations) {
        const called = text(name)
        if (initializer === undefined || (BY_HAND as readonly string[]).includes(called) || called === 'PLACE') continue
        const given = (loop as Readonly<Record<string, unknown>>)[called]
        constants.set(called, typeof given === 'number' ? given : (constantOf(initializer) ?? fail(initializer)))
      }
  }
  if (body === undefined) throw new Error('kernel.ts has no advance')

  return {
    /** What `advance` does. */
    body,
    constants: constants as ReadonlyMap<string, number>,
    reads: reads as ReadonlyMap<string, Read>,
    text,
    fail,
    found,
    own,
    readOf,
    constantOf,
    kindOf,
    both,
    isNothing: (node: ts.Expression) => node.kind === ts.SyntaxKind.NullKeyword || text(node) === 'undefined',
    declare: (name: string, is: Name) => names.at(-1)!.set(name, is),
    /** What a block declares ends with it. */
    block<T>(inside: () => T): T {
      names.push(new Map())
      const made = inside()
      names.pop()
      return made
    },
  }
}
