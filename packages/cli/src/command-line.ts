import { parseArgs } from 'node:util'
import type { Problem } from '@plugstead/engine/kernel'
import { nearest } from './near.ts'

export interface Option {
  /** What its value is, as help names it: `DIR`. Absent: it takes none. */
  readonly value?: string
  readonly said: string
  /** The only values it takes. */
  readonly oneOf?: readonly string[]
  /** Groups the option in help. */
  readonly group?: string
}

export interface Operand {
  readonly name: string
  readonly said: string
  readonly optional?: boolean
}

/** What one command takes. */
export interface Takes {
  readonly operands: readonly Operand[]
  readonly options: Readonly<Record<string, Option>>
}

export interface Given {
  readonly operands: readonly string[]
  /** Values of the options given, by name; a flag's value is `true`. */
  readonly options: Readonly<Record<string, string | true>>
  /** All problems of the line, not the first alone. */
  readonly problems: readonly Problem[]
}

/** Reads the words after the command's name. */
export function readCommandLine(command: string, words: readonly string[], takes: Takes): Given {
  const problems: Problem[] = []
  const options: Record<string, string | true> = {}
  const operands: string[] = []
  const help = `plugstead ${command} --help`
  const problem = (code: string, found: string, wanted: string, mend: string) =>
    problems.push({ code: `command-line/${code}`, found, wanted, mend })

  const { tokens } = parseArgs({
    args: [...words],
    strict: false,
    tokens: true,
    allowPositionals: true,
    options: Object.fromEntries(
      Object.entries(takes.options).map(([name, option]) => [name, { type: option.value ? 'string' : 'boolean' } as const]),
    ),
  })
  for (const token of tokens) {
    if (token.kind === 'positional') operands.push(token.value)
    if (token.kind !== 'option') continue
    const option = takes.options[token.name]
    if (option === undefined) {
      const near = nearest(token.name, Object.keys(takes.options))
      const mend = near === null ? `See ${help}.` : `Did you mean --${near}? See ${help}.`
      problem('option-unknown', token.rawName, `an option of ${command}`, mend)
    } else if (option.value === undefined) {
      if (token.value === undefined) options[token.name] = true
      else problem('value-not-taken', `${token.rawName}=${token.value}`, `${token.rawName} alone`, `Leave out “=${token.value}”.`)
    } else if (token.value === undefined || token.value === '' || (!token.inlineValue && token.value.startsWith('--'))) {
      problem(
        'value-missing',
        token.rawName,
        `a value after it: ${token.rawName} ${option.value}`,
        `Write ${token.rawName} ${option.value}: ${option.said}`,
      )
    } else if (token.name in options) {
      problem('option-twice', `${token.rawName} twice`, 'it once', 'Leave one of them out.')
    } else if (option.oneOf !== undefined && !option.oneOf.includes(token.value)) {
      problem(
        'value-unknown',
        `${token.rawName} ${token.value}`,
        `one of ${option.oneOf.join(', ')}`,
        `Write ${token.rawName} ${option.oneOf[0]}.`,
      )
    } else options[token.name] = token.value
  }
  const wanted = takes.operands
  if (operands.length > wanted.length) {
    const extra = operands.slice(wanted.length).join(' ')
    problem(
      'too-much',
      extra,
      wanted.length === 0 ? 'nothing there' : `only ${wanted.map((operand) => operand.name).join(' ')}`,
      `Leave out “${extra}”. See ${help}.`,
    )
  }
  wanted.forEach((operand, at) => {
    if (operands[at] === undefined && !operand.optional)
      problem(
        'operand-missing',
        'nothing',
        `${operand.name}: ${operand.said}`,
        `Write plugstead ${command} ${wanted.map((one) => one.name).join(' ')}. See ${help}.`,
      )
  })
  return { operands, options, problems }
}
